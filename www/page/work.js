// The page's end of the worker: asks it, and hands its answers back as promises.

/**
 * A function that asks the worker for a task, and has a `stop`; the worker starts with the first question, and is told the
 * language before.
 */
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
      end('the picture cannot be worked on here: reload the page, or choose a smaller picture');
    });
    if (language) {
      begun.postMessage({ number: 0, task: 'speak', given: language });
    }
    return begun;
  }

  function end(why) {
    worker?.terminate();
    worker = undefined;
    const refused = [...waiting.values()];
    waiting.clear();
    refused.forEach(({ reject }) => reject(why));
  }

  const ask = (task, given, progress) =>
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
  /** Ends the worker in the middle of what it does; all that was asked is refused without a word. */
  ask.stop = () => end('');
  return ask;
}
