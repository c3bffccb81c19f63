// The worker of the one-file page is the package's script and its own, in one blob; no other script may be started.
const workerUrl = URL.createObjectURL(new Blob([document.getElementById('package').textContent, workerText], { type: 'text/javascript' }));
const onlyWorker = (name) => {
  if (name !== workerUrl) {
    throw new TypeError(`${name} is no script of this page`);
  }
  return name;
};
const policy = globalThis.trustedTypes?.createPolicy('app', { createScriptURL: onlyWorker }) ?? { createScriptURL: onlyWorker };
const beginWorker = (language) => {
  globalThis.askWorker = asker(() => new Worker(policy.createScriptURL(workerUrl)), language);
};
