// Boot only: everything else is decided in the wasm package.
import init, { boot, speak } from './halfbreadth.js';
import { beginLanguage } from './language.js';
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

const [language] = await Promise.all([beginLanguage(), init()]);
globalThis.askWorker = asker(() => new Worker(policy.createScriptURL('worker.js'), { type: 'module' }), language);
if (language) {
  speak(language.code, language.catalogue);
}
boot();
await keepOffline(policy.createScriptURL('sw.js'));
