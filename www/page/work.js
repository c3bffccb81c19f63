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
      const number = ++count;
      waiting.set(number, { resolve, reject, progress });
      const refuse = (why) => {
        waiting.delete(number);
        reject(why);
      };
      handed(given).then((given) => {
        if (!waiting.has(number)) {
          return; // it was stopped meanwhile
        }
        try {
          worker ??= begin();
        } catch {
          refuse('this page cannot start the part that works on pictures: open it from a web address');
          return;
        }
        worker.postMessage({ number, task, given }, given.bitmap ? [given.bitmap] : []);
      }, refuse);
    });
  /** Ends the worker in the middle of what it does; all that was asked is refused without a word. */
  ask.stop = () => end('');
  return ask;
}

/** What the worker is given: of a picture's bytes the picture itself, for not everywhere may the worker of a page from a disk read one. */
async function handed({ picture, ...given }) {
  if (!picture) {
    return given;
  }
  try {
    return { ...given, bitmap: await createImageBitmap(new Blob([picture])) };
  } catch {
    throw 'this file is no picture that this browser can open: choose a JPEG or PNG';
  }
}
