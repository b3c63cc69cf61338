// Keeps the page on the device, so that it opens with no network. The build fills in what there
// is to keep (web/build-worker.mjs); a changed page has another name, so the worker is another
// file, is fetched whole beside the old one, and takes over only when the person asks.

/** Of this build: a hash of all that is kept. */
const BUILD = '{{build}}';
/** Every file of the page, relative to this one; './' is the page itself. @type {string[]} */
const FILES = ['{{files}}'];

/** @typedef {Event & {waitUntil(work: Promise<unknown>): void}} Lasting */
/** @typedef {Lasting & {request: Request, respondWith(answer: Promise<Response>): void}} Asked */
/**
 * @typedef {object} Scope What a worker has and a page has not.
 * @property {{scope: string}} registration
 * @property {() => Promise<void>} skipWaiting
 * @property {{claim: () => Promise<void>}} clients
 * @property {(type: string, hear: (event: any) => void) => void} addEventListener
 */
const worker = /** @type {Scope} */ (/** @type {unknown} */ (self));

/** Several copies of the page may live at one origin: each has caches of its own. */
const OURS = `holding ${worker.registration.scope} `;
const CACHE = OURS + BUILD;
const KEPT = new Set(FILES.map((file) => new URL(file, worker.registration.scope).href));

/** @param {string} url Some servers lead from one address to another; kept is what came, under the address asked. */
async function fetched(url) {
  const answer = await fetch(url, { cache: 'reload' });
  if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
  return answer.redirected ? new Response(answer.body, answer) : answer;
}

/** All or nothing: a page half of one build and half of another would be worse than none. */
async function keepAll() {
  try {
    const cache = await caches.open(CACHE);
    for (const url of KEPT) await cache.put(url, await fetched(url));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function dropOthers() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
  await worker.clients.claim();
}

/** Address of what is kept for a request: course platforms and teachers put keys into the query. @param {string} asked */
function keptUrl(asked) {
  const url = new URL(asked);
  url.search = '';
  url.hash = '';
  url.pathname = url.pathname.replace(/\/index\.html$/, '/');
  return KEPT.has(url.href) ? url.href : null;
}

/** @param {Request} request @param {string} url */
async function answer(request, url) {
  const cache = await caches.open(CACHE);
  return await cache.match(url, { ignoreSearch: true }) ?? fetch(request);
}

worker.addEventListener('install', (/** @type {Lasting} */ event) => event.waitUntil(keepAll()));
worker.addEventListener('activate', (/** @type {Lasting} */ event) => event.waitUntil(dropOthers()));
worker.addEventListener('message', (/** @type {MessageEvent} */ event) => {
  if (event.data === 'take over') worker.skipWaiting();
});
worker.addEventListener('fetch', (/** @type {Asked} */ event) => {
  const url = event.request.method === 'GET' ? keptUrl(event.request.url) : null;
  if (url !== null) event.respondWith(answer(event.request, url));
});
