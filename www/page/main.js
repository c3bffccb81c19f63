// Boot only: everything else is decided in the wasm package.
import init, { boot } from './halfbreadth.js';
import { asker } from './work.js';
import { keepOffline } from './offline.js';

/** The only scripts that may be started from here, whatever is asked for. */
const scripts = ['sw.js', 'worker.js'];
const policy = globalThis.trustedTypes?.createPolicy('app', { createScriptURL: own }) ?? { createScriptURL: own };

function own(name) {
  if (!scripts.includes(name)) {
    throw new TypeError(`${name} is no script of this page`);
  }
  return name;
}

globalThis.askWorker = asker(() => new Worker(policy.createScriptURL('worker.js'), { type: 'module' }));

await init();
boot();
await keepOffline(policy.createScriptURL('sw.js'));
