// The page's one handle on the study module: in a worker where one can be had, else in the page
// itself, in slices between frames. What is newer takes the place of what still waits.
import { carried } from './carried.js';

/** @typedef {import('./study-work.js').Asked} Asked */
/** @typedef {import('./study-work.js').Told} Told */
/** @typedef {import('./study-work.js').MapWanted} MapWanted */
/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {import('./study-work.js').WindAt} WindAt */

/** In the page a slice leaves time for a frame, and so does painting a map of this size. */
const SLICE_MS = 4;
export const MOST_PX = 720;
const MOST_PX_IN_PAGE = 440;

/** The single file has no file beside it; a page opened from disk, or a frame without an origin, may have no worker. */
const mayHaveWorker = () => typeof Worker === 'function' && location.protocol !== 'file:' && globalThis.origin !== 'null'
  && !document.getElementById('carried-study.wasm');

/**
 * @param {object} hears
 * @param {(picture: MapPicture) => void} hears.map
 * @param {() => void} hears.failed There is no module: nothing is shown any more.
 */
export function createStudyHost(hears) {
  /** @type {((asked: Asked) => void) | null} */
  let send = null;
  let started = false;
  let in_page = false;
  /** Number of the map that was sent and of which no picture has come yet; 0: none. */
  let awaited = 0;
  /** @type {MapWanted | null} */
  let wanted = null;
  /** It is not sent yet. */
  let waits = false;
  let last_id = 0;
  /** @type {Map<number, {winds: WindAt[], done: (values: (number | null)[]) => void}>} */
  const asked = new Map();

  /** @param {Told} told */
  function hear(told) {
    if (told.type === 'failed') {
      hears.failed();
    } else if (told.type === 'values') {
      asked.get(told.id)?.done(told.values);
      asked.delete(told.id);
    } else {
      if (told.id === awaited) awaited = 0;
      next();
      if (wanted) hears.map(told);
    }
  }

  /** One at a time: while it is drawn, whatever comes waits, and only the newest stays. */
  function next() {
    if (!send || awaited !== 0 || !waits || !wanted) return;
    waits = false;
    awaited = last_id += 1;
    const size_px = Math.min(wanted.size_px, in_page ? MOST_PX_IN_PAGE : MOST_PX);
    send({ type: 'map', id: awaited, wanted: { ...wanted, size_px } });
  }

  /** @param {(asked: Asked) => void} way */
  function open(way) {
    send = way;
    awaited = 0;
    waits = wanted !== null;
    next();
    for (const [id, { winds }] of asked) send({ type: 'values', id, winds });
  }

  async function openInPage() {
    in_page = true;
    try {
      const [{ load }, { createWork }] = await Promise.all([import('./study.mjs'), import('./study-work.js')]);
      const wasm = carried('study.wasm');
      const study = await load(wasm ? { wasm, simd: false } : {});
      const work = createWork(study, hear, SLICE_MS);
      // After what the page is doing, as a message would come.
      open((what) => setTimeout(() => work.take(what), 0));
    } catch (error) {
      console.info(`No study module: ${error instanceof Error ? error.message : error}`);
      hears.failed();
    }
  }

  function start() {
    started = true;
    if (!mayHaveWorker()) {
      openInPage();
      return;
    }
    try {
      const worker = new Worker(new URL('study-worker.js', import.meta.url), { type: 'module' });
      worker.addEventListener('message', ({ data }) => hear(data));
      worker.addEventListener('error', (event) => {
        event.preventDefault();
        worker.terminate();
        send = null;
        openInPage();
      }, { once: true });
      open((what) => worker.postMessage(what));
    } catch {
      openInPage();
    }
  }

  return {
    /** The newest counts. @param {MapWanted} next_wanted */
    map(next_wanted) {
      if (JSON.stringify(wanted) === JSON.stringify(next_wanted)) return;
      wanted = next_wanted;
      waits = true;
      if (started) next();
      else start();
    },
    /** Of the map that was asked for last. @param {WindAt[]} winds @returns {Promise<(number | null)[]>} */
    values: (winds) => new Promise((done) => {
      last_id += 1;
      asked.set(last_id, { winds, done });
      send?.({ type: 'values', id: last_id, winds });
    }),
    /** Nothing is worked on until a map is asked for again. */
    rest() {
      wanted = null;
      waits = false;
      awaited = 0;
      send?.({ type: 'rest' });
    },
  };
}
