// The page's end of the worker: asks it, and hands its answers back as promises.

/** A function that asks the worker for a task; the worker starts with the first, and is told the language before. */
export function asker(start, language) {
  const waiting = new Map();
  let worker;
  let count = 0;

  function begin() {
    const begun = start();
    begun.addEventListener('message', ({ data: { number, progress, answer, error } }) => {
      const asked = waiting.get(number);
      if (progress !== undefined) {
        asked?.progress(progress);
        return;
      }
      waiting.delete(number);
      if (error === undefined) {
        asked?.resolve(answer);
      } else {
        asked?.reject(error);
      }
    });
    begun.addEventListener('error', () => {
      // The worker has no more memory, or did not load: what was asked is not answered any more.
      for (const { reject } of waiting.values()) {
        reject('the picture cannot be worked on here: reload the page, or choose a smaller picture');
      }
      waiting.clear();
      begun.terminate();
      worker = undefined;
    });
    if (language) {
      begun.postMessage({ number: 0, task: 'speak', given: language });
    }
    return begun;
  }

  return (task, given, progress) =>
    new Promise((resolve, reject) => {
      try {
        worker ??= begin();
      } catch {
        reject('this page cannot start the part that works on pictures: open it from a web address');
        return;
      }
      waiting.set(++count, { resolve, reject, progress });
      worker.postMessage({ number: count, task, given });
    });
}
