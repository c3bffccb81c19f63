// The page without a network: keeps every file of one release, and answers from there.
//
// The build writes two lines before these: `release`, a name made of the content of all files, and `files`, the address of
// each with the hash of its content. A release is kept whole or not at all, and no file of another is ever mixed in.

// Other pages, and other copies of this one, may share the host and so the store.
const mine = `halfbreadth ${self.registration.scope} `;

self.addEventListener('install', (event) => event.waitUntil(keep()));
self.addEventListener('activate', (event) => event.waitUntil(forget()));
self.addEventListener('fetch', (event) => {
  const file = wanted(event.request);
  if (file) {
    event.respondWith(answer(file, event.request));
  }
});
// A new release waits until the person takes it: the page sends this when its button is pressed.
self.addEventListener('message', ({ data }) => data === 'take-release' && self.skipWaiting());

async function keep() {
  const cache = await caches.open(mine + release);
  try {
    await Promise.all(Object.entries(files).map(async ([file, integrity]) => cache.put(file, await load(file, integrity))));
  } catch (error) {
    await caches.delete(mine + release);
    throw error;
  }
}

/** A file with exactly this content: what the browser has just loaded for the page, else what the host has now. */
async function load(file, integrity) {
  return fetch(file, { integrity }).catch(() => fetch(file, { integrity, cache: 'reload' }));
}

async function forget() {
  const old = (await caches.keys()).filter((name) => name.startsWith(mine) && name !== mine + release);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** Which file of the release a request means, if any: the page has its address with and without its name. */
function wanted({ method, url }) {
  const [address] = url.split(/[?#]/);
  if (method !== 'GET' || !address.startsWith(self.registration.scope)) {
    return undefined;
  }
  const file = address.slice(self.registration.scope.length).replace(/^index\.html$/, '') || './';
  return Object.hasOwn(files, file) ? file : undefined;
}

async function answer(file, request) {
  const cache = await caches.open(mine + release);
  return (await cache.match(file)) ?? fetch(request);
}
