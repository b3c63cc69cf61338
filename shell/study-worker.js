// The worker that maps are made in; study-host.js starts it and talks with it.
import { load } from './study.mjs';
import { createWork } from './study-work.js';

/** A worker has nothing else to do, but what is newer must not wait. */
const SLICE_MS = 12;

/** @typedef {import('./study-work.js').Told} Told */

const worker = /** @type {{postMessage(told: Told, moved?: ArrayBuffer[]): void, addEventListener: typeof addEventListener}} */ (
  /** @type {unknown} */ (self));

const work = load().then((study) => createWork(study, (told, moved) => worker.postMessage(told, moved), SLICE_MS));
work.catch(() => worker.postMessage({ type: 'failed' }));

worker.addEventListener('message', async ({ data }) => {
  try {
    (await work).take(data);
  } catch {
    worker.postMessage({ type: 'failed' });
  }
});
