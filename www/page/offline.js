// Keeps the page in the browser, and offers a new release of it: never takes one by itself.

const { serviceWorker } = navigator;

/** How long a page that stays open waits before it looks for a new release again, ms. */
const hour = 3_600_000;

/** Registers the service worker at `address`. Where there is none, the page works as long as the host answers. */
export async function keepOffline(address) {
  const registration = await serviceWorker?.register(address, { updateViaCache: 'none' }).catch(() => undefined);
  if (!registration) {
    return;
  }
  if (matchMedia('(display-mode: standalone)').matches) {
    navigator.storage?.persist?.(); // who installs a page means what is in it to stay
  }
  const { dataset } = document.body;
  const look = () => {
    if (registration.active) {
      dataset.offline = '';
    }
    // Without a controller this page is itself of the newest release.
    if (registration.waiting && serviceWorker.controller) {
      dataset.release = '';
    }
  };
  const follow = () => registration.installing?.addEventListener('statechange', look);
  registration.addEventListener('updatefound', follow);
  follow();
  look();
  let looked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible' && Date.now() - looked > hour) {
      looked = Date.now();
      registration.update().catch(() => {}); // without a network there is nothing new
    }
  });
  document.querySelector('[data-command=take-release]').addEventListener('click', () => take(registration));
}

/** Takes the new release, once the last change is safely in the browser's database. */
async function take(registration) {
  const { dataset } = document.body;
  while (dataset.saved !== dataset.revision) {
    if (dataset.keeping === 'failed') {
      return; // the page says what to do about it, and must stay for that
    }
    await new Promise(requestAnimationFrame);
  }
  if (registration.waiting) {
    serviceWorker.addEventListener('controllerchange', () => location.reload());
    registration.waiting.postMessage('take-release');
  } else {
    location.reload(); // another window has taken it already
  }
}
