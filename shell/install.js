// Keeps the page on the device by a service worker, where there may be one, and offers a new
// version when it is there. It is taken when the person says so, never by itself: a question or
// a flight may be half done. The page is whole without any of this.
import { byId } from './dom.js';

/** Frames and files do without, and so does a page that names no manifest (the single file). */
const wanted = () => window.top === window && /^https?:$/.test(location.protocol)
  && document.querySelector('link[rel="manifest"]') !== null;

/** @param {ServiceWorkerContainer} container */
async function keep(container) {
  const offer = byId('update', HTMLElement);
  let asked = false;
  /** Whether a worker has this page: the first to come is no new version. */
  let had = container.controller !== null;
  const registration = await container.register('service-worker.js', { updateViaCache: 'none' });

  const show = () => { offer.hidden = false; };
  /** @param {ServiceWorker | null} coming */
  const watch = (coming) => coming?.addEventListener('statechange', () => {
    if (coming.state === 'installed' && container.controller) show();
  });

  container.addEventListener('controllerchange', () => {
    if (asked) location.reload();
    // Another window asked for it: this one goes on with what it has.
    else if (had) show();
    had = true;
  });
  byId('update-take', HTMLButtonElement).addEventListener('click', () => {
    asked = true;
    if (registration.waiting) registration.waiting.postMessage('take over');
    else location.reload();
  });
  byId('update-later', HTMLButtonElement).addEventListener('click', () => { offer.hidden = true; });

  registration.addEventListener('updatefound', () => watch(registration.installing));
  watch(registration.installing);
  if (registration.waiting && container.controller) show();
}

/** Once the page is there: what it needs itself comes first. */
export async function mountInstall() {
  try {
    if (wanted() && navigator.serviceWorker) await keep(navigator.serviceWorker);
  } catch {
    // Not allowed here, or not to be had: the page works as it is.
  }
}
