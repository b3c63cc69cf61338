// How the study module is put to work, in a worker or in the page: in slices, so that what is
// newer is taken up at once; a coarse map first, then finer ones.

/** @typedef {import('./study.mjs').Study} Study */
/** @typedef {import('./study.mjs').MapChoice} MapChoice */
/** @typedef {import('./study.mjs').MapInfo} MapInfo */
/** @typedef {import('./study.mjs').MapTheme} MapTheme */
/** @typedef {[from_deg: number, kt: number]} WindAt */

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
 * @typedef {{type: 'values', id: number, values: (number | null)[]}} Values
 * @typedef {{type: 'failed'}} Failed
 *
 * @typedef {{type: 'map', id: number, wanted: MapWanted} | {type: 'values', id: number, winds: WindAt[]} | {type: 'rest'}} Asked
 * @typedef {MapPicture | Values | Failed} Told
 */

/** Winds of the first piece; later ones by the time that they take. */
const FIRST_WINDS = 8;
/** So many pieces to a slice. */
const PIECES = 4;

/**
 * @param {Study} study
 * @param {(told: Told, moved: ArrayBuffer[]) => void} tell
 * @param {number} slice_ms
 */
export function createWork(study, tell, slice_ms) {
  /** @type {MapWanted | null} */
  let wanted = null;
  let wanted_id = 0;
  /** Link and choice of the map begun. */
  let begun = '';
  let winds = FIRST_WINDS;
  let finished = true;
  /** Directions of the map that was painted last. */
  let painted = 0;
  /** Painted, and its lines not drawn yet. @type {Uint8ClampedArray<ArrayBuffer> | null} */
  let pixels = null;
  /** @type {{id: number, winds: WindAt[], values: (number | null)[]}[]} */
  let asked = [];
  /** @type {ReturnType<typeof setTimeout> | 0} */
  let timer = 0;

  /** Fills the time until then with pieces of map. @param {number} until_ms */
  function workUntil(until_ms) {
    for (let now = performance.now(); !finished && now < until_ms;) {
      finished = study.map.work(Math.round(winds));
      const after = performance.now();
      // As many winds as take a piece's time, by half or double at once.
      winds *= Math.min(2, Math.max(0.5, slice_ms / PIECES / Math.max(after - now, 0.01)));
      winds = Math.min(Math.max(winds, 1), 100000);
      now = after;
    }
  }

  /** @param {number} until_ms */
  function answerUntil(until_ms) {
    while (asked.length && performance.now() < until_ms) {
      const { id, winds: at, values } = asked[0];
      if (values.length < at.length) values.push(study.map.value(...at[values.length]));
      if (values.length < at.length) continue;
      asked.shift();
      tell({ type: 'values', id, values }, []);
    }
  }

  /** One thing a slice: painting takes about as long as one. */
  function slice() {
    timer = 0;
    const until_ms = performance.now() + slice_ms;
    answerUntil(until_ms);
    if (wanted && pixels) {
      const lines = study.map.lines().slice();
      tell({ type: 'map', id: wanted_id, wanted, pixels, lines, info: study.map.info(), colours: study.map.colours(wanted.theme), whole: finished },
        [pixels.buffer, lines.buffer]);
      pixels = null;
    } else if (wanted) {
      workUntil(until_ms);
      const { directions } = study.map.info();
      if (directions !== painted) {
        painted = directions;
        pixels = study.map.image(wanted.size_px, wanted.theme)?.slice() ?? null;
      }
    }
    if (asked.length || pixels || !finished) timer = setTimeout(slice, 0);
  }

  /** @param {number} id @param {MapWanted} next */
  function begin(id, next) {
    const about = JSON.stringify([next.link, next.choice]);
    wanted_id = id;
    wanted = next;
    painted = 0;
    pixels = null;
    if (about === begun) return;
    begun = about;
    study.scene(next.link);
    study.map.begin(next.choice);
    finished = false;
    winds = FIRST_WINDS;
  }

  return {
    /** @param {Asked} what */
    take(what) {
      if (what.type === 'rest') {
        clearTimeout(timer);
        timer = 0;
        asked = [];
        begun = '';
        finished = true;
        wanted = null;
        return;
      }
      if (what.type === 'map') begin(what.id, what.wanted);
      else asked.push({ id: what.id, winds: what.winds, values: [] });
      if (timer === 0) slice();
    },
  };
}
