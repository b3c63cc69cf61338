// How the study module is put to work, in a worker or in the page: in slices, so that what is
// newer is taken up at once.
import { cloudJob } from './study-cloud.js';
import { mapJob } from './study-map.js';

/** @typedef {import('./study.mjs').Study} Study */
/** @typedef {import('./study.mjs').MapChoice} MapChoice */
/** @typedef {import('./study.mjs').MapInfo} MapInfo */
/** @typedef {import('./study.mjs').MapTheme} MapTheme */
/** @typedef {import('./study.mjs').CloudInfo} CloudInfo */
/** @typedef {import('./study.mjs').Unknown} Unknown */
/** @typedef {[from_deg: number, kt: number]} WindAt */
/** @typedef {{centre_x: number, centre_y: number, px_per_nm: number, width_px: number, height_px: number}} CloudView */

/**
 * @typedef {object} MapWanted
 * @property {string} link
 * @property {MapChoice} choice
 * @property {number} size_px
 * @property {MapTheme} theme
 *
 * @typedef {object} MapPicture
 * @property {'map'} type
 * @property {number} id Of what was asked.
 * @property {MapWanted} wanted
 * @property {Uint8ClampedArray<ArrayBuffer>} pixels RGBA, size_px square.
 * @property {Float32Array<ArrayBuffer>} lines As Study's map.lines().
 * @property {MapInfo} info
 * @property {{scale: string[], rules: string[]}} colours
 * @property {boolean} whole Nothing finer comes.
 *
 * @typedef {object} CloudWanted
 * @property {string} link
 * @property {Record<Unknown, number>} spread
 * @property {number} seed
 * @property {number} tolerance_nm
 * @property {CloudView} view
 * @property {{rollouts: number, tracks: number}} inks
 *
 * @typedef {object} CloudPicture
 * @property {'cloud'} type
 * @property {number} id
 * @property {CloudWanted} wanted
 * @property {Uint8ClampedArray<ArrayBuffer>} pixels RGBA of the view; empty where there is no cloud.
 * @property {Float32Array<ArrayBuffer>} lines As Study's cloud.lines().
 * @property {CloudInfo} info
 *
 * @typedef {{type: 'ready', unknowns: {name: Unknown, usual: number, widest: number}[]}} Ready
 * @typedef {{type: 'shares', id: number, info: CloudInfo}} Shares The cloud's, with its shares of variance.
 * @typedef {{about: MapInfo, values: (number | null)[]}} ValuesOf
 * @typedef {{type: 'values', id: number, answer: ValuesOf}} Values
 * @typedef {{type: 'card', id: number, answer: import('./study.mjs').SensitivityCard}} Card
 * @typedef {{type: 'failed'}} Failed
 *
 * @typedef {{type: 'values', id: number, winds: WindAt[]}} AskedValues
 * @typedef {{type: 'card', id: number, link: string}} AskedCard
 * @typedef {{type: 'map', id: number, wanted: MapWanted} | {type: 'cloud', id: number, wanted: CloudWanted}
 *   | AskedValues | AskedCard | {type: 'rest', of: 'map' | 'cloud'}} Asked
 * @typedef {Ready | MapPicture | CloudPicture | Shares | Values | Card | Failed} Told
 */

/**
 * What is worked on until something newer of its kind is wanted.
 * @template Wanted
 * @typedef {object} Job
 * @property {() => boolean} busy
 * @property {(id: number, wanted: Wanted) => void} begin
 * @property {(until_ms: number) => void} slice
 * @property {() => void} rest
 */

/**
 * @param {Study} study
 * @param {(told: Told, moved: ArrayBuffer[]) => void} tell
 * @param {number} slice_ms
 */
export function createWork(study, tell, slice_ms) {
  const jobs = { map: mapJob(study, tell, slice_ms), cloud: cloudJob(study, tell) };
  /** In turn. */
  const order = [jobs.cloud, jobs.map];
  /** @type {(AskedValues & {values: (number | null)[]})[]} */
  let asked = [];
  /** @type {ReturnType<typeof setTimeout> | 0} */
  let timer = 0;

  /** @param {number} until_ms */
  function answer(until_ms) {
    while (asked.length && performance.now() < until_ms) {
      const { id, winds, values } = asked[0];
      if (values.length < winds.length) values.push(study.map.value(...winds[values.length]));
      if (values.length < winds.length) continue;
      asked.shift();
      tell({ type: 'values', id, answer: { about: study.map.info(), values } }, []);
    }
  }

  function slice() {
    timer = 0;
    const until_ms = performance.now() + slice_ms;
    answer(until_ms);
    const job = order.find(({ busy }) => busy());
    if (job) {
      job.slice(until_ms);
      order.push(...order.splice(order.indexOf(job), 1));
    }
    if (asked.length || order.some(({ busy }) => busy())) timer = setTimeout(slice, 0);
  }

  tell({ type: 'ready', unknowns: study.cloud.unknowns() }, []);

  return {
    /** @param {Asked} what */
    take(what) {
      if (what.type === 'map') {
        jobs.map.begin(what.id, what.wanted);
        // What is half answered would be of two maps.
        for (const { values } of asked) values.length = 0;
      } else if (what.type === 'cloud') jobs.cloud.begin(what.id, what.wanted);
      else if (what.type === 'rest') jobs[what.of].rest();
      else if (what.type === 'values') asked.push({ ...what, values: [] });
      else {
        study.scene(what.link);
        tell({ type: 'card', id: what.id, answer: study.sensitivity() }, []);
      }
      if (timer === 0) slice();
    },
  };
}
