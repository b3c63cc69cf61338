// The page's one handle on the study module: in a worker where one can be had, else in the page
// itself, in slices between frames. Of maps and of clouds only the newest is worked on.
import { carried } from './carried.js';

/** @typedef {import('./study-work.js').Asked} Asked */
/** @typedef {import('./study-work.js').Told} Told */
/** @typedef {import('./study-work.js').MapWanted} MapWanted */
/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {import('./study-work.js').CloudWanted} CloudWanted */
/** @typedef {import('./study-work.js').CloudPicture} CloudPicture */
/** @typedef {import('./study-work.js').WindAt} WindAt */
/** @typedef {import('./study.mjs').SensitivityCard} SensitivityCard */

/** In the page a slice leaves time for a frame, and so does painting a picture of so many pixels. */
const SLICE_MS = 4;
export const MOST_PX = 720;
const MOST_PX_IN_PAGE = 440;

/** The single file has no file beside it; a page opened from disk, or a frame without an origin, may have no worker. */
const mayHaveWorker = () => typeof Worker === 'function' && location.protocol !== 'file:' && globalThis.origin !== 'null'
  && !document.getElementById('carried-study.wasm');

/**
 * What is wanted of one kind: one at a time is sent, whatever comes meanwhile waits, and only the
 * newest of it stays.
 * @template Wanted
 * @param {(wanted: Wanted) => number | null} send Number of what was sent; null: it cannot be sent yet.
 */
function createLane(send) {
  /** @type {Wanted | null} */
  let wanted = null;
  let waits = false;
  /** Sent, and nothing of it has come yet; 0: none. */
  let awaited = 0;
  function next() {
    if (awaited !== 0 || !waits || !wanted) return;
    const id = send(wanted);
    if (id === null) return;
    waits = false;
    awaited = id;
  }
  return {
    /** @param {Wanted} newest */
    want(newest) {
      if (JSON.stringify(wanted) === JSON.stringify(newest)) return;
      wanted = newest;
      waits = true;
      next();
    },
    /** Something of it has come; whether it is of use. @param {number} id */
    came(id) {
      if (id === awaited) awaited = 0;
      next();
      return wanted !== null;
    },
    /** All over again, with whoever is there now. */
    again() {
      awaited = 0;
      waits = wanted !== null;
      next();
    },
    rest() {
      wanted = null;
      waits = false;
      awaited = 0;
    },
  };
}

/**
 * @param {object} hears
 * @param {(unknowns: import('./study-work.js').Ready['unknowns']) => void} hears.ready
 * @param {(picture: MapPicture) => void} hears.map
 * @param {(picture: CloudPicture) => void} hears.cloud
 * @param {(info: import('./study.mjs').CloudInfo) => void} hears.shares
 * @param {() => void} hears.failed There is no module.
 */
export function createStudyHost(hears) {
  /** @type {((asked: Asked) => void) | null} */
  let send = null;
  let started = false;
  let in_page = false;
  let last_id = 0;
  /** Asked and not answered. @type {Map<number, {what: Asked, done: (answer: any) => void}>} */
  const asked = new Map();

  const map = createLane((/** @type {MapWanted} */ wanted) => {
    const size_px = Math.min(wanted.size_px, in_page ? MOST_PX_IN_PAGE : MOST_PX);
    return sent((id) => ({ type: 'map', id, wanted: { ...wanted, size_px } }));
  });
  const cloud = createLane((/** @type {CloudWanted} */ wanted) => sent((id) => ({ type: 'cloud', id, wanted })));

  /** @param {(id: number) => Asked} what */
  function sent(what) {
    if (!started) start();
    if (!send) return null;
    last_id += 1;
    send(what(last_id));
    return last_id;
  }

  /** @param {(id: number) => Asked} what @returns {Promise<any>} */
  const answered = (what) => new Promise((done) => {
    last_id += 1;
    const asking = what(last_id);
    asked.set(last_id, { what: asking, done });
    send?.(asking);
  });

  /** What is wanted next tries anew. */
  function fail() {
    send = null;
    started = false;
    in_page = false;
    asked.clear();
    hears.failed();
  }

  /** @param {Told} told */
  function hear(told) {
    switch (told.type) {
      case 'failed': fail(); break;
      case 'ready': hears.ready(told.unknowns); break;
      case 'map': if (map.came(told.id)) hears.map(told); break;
      case 'cloud': if (cloud.came(told.id)) hears.cloud(told); break;
      case 'shares': if (cloud.came(told.id)) hears.shares(told.info); break;
      default:
        asked.get(told.id)?.done(told.answer);
        asked.delete(told.id);
    }
  }

  /** @param {(asked: Asked) => void} way */
  function open(way) {
    send = way;
    map.again();
    cloud.again();
    for (const { what } of asked.values()) send(what);
  }

  async function openInPage() {
    in_page = true;
    try {
      const [{ load }, { createWork }] = await Promise.all([import('./study.mjs'), import('./study-work.js')]);
      const wasm = carried('study.wasm');
      const work = createWork(await load(wasm ? { wasm, simd: false } : {}), hear, SLICE_MS);
      // After what the page is doing, as a message would come.
      open((what) => setTimeout(() => work.take(what), 0));
    } catch (error) {
      console.info(`No study module: ${error instanceof Error ? error.message : error}`);
      fail();
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
      worker.addEventListener('message', ({ data }) => {
        if (data.type === 'failed') worker.terminate();
        hear(data);
      });
      worker.addEventListener('error', (event) => {
        event.preventDefault();
        worker.terminate();
        send = null;
        openInPage();
      }, { once: true });
      send = (what) => worker.postMessage(what);
    } catch {
      openInPage();
    }
  }

  return {
    map: map.want,
    cloud: cloud.want,
    /** Of the map that was sent last, which they name: what is shown may be the one before. @param {WindAt[]} winds @returns {Promise<import('./study-work.js').ValuesOf>} */
    values: (winds) => answered((id) => ({ type: 'values', id, winds })),
    /** @param {string} link @returns {Promise<SensitivityCard>} */
    card: (link) => answered((id) => ({ type: 'card', id, link })),
    /** Pixels for one of the picture's: in the page fewer are painted. */
    cloudScale: () => (in_page ? 0.5 : 1),
    /** Nothing of it is worked on until it is asked for again. @param {'map' | 'cloud'} of */
    rest(of) {
      ({ map, cloud })[of].rest();
      send?.({ type: 'rest', of });
    },
  };
}
