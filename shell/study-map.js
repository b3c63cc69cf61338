// Maps over all winds at work: coarse ones first, each painted when it is whole.

/** @typedef {import('./study.mjs').Study} Study */
/** @typedef {import('./study-work.js').Told} Told */
/** @typedef {import('./study-work.js').MapWanted} MapWanted */

/** Winds of the first piece; later ones by the time that they take. */
const FIRST_WINDS = 8;
const MOST_WINDS = 100000;
/** So many pieces to a slice. */
const PIECES = 4;

/**
 * @param {Study} study
 * @param {(told: Told, moved: ArrayBuffer[]) => void} tell
 * @param {number} slice_ms
 * @returns {import('./study-work.js').Job<MapWanted>}
 */
export function mapJob(study, tell, slice_ms) {
  /** @type {MapWanted | null} */
  let wanted = null;
  let id = 0;
  /** Link and choice of the map begun. */
  let begun = '';
  let winds = FIRST_WINDS;
  let finished = true;
  /** Directions of the map that was painted last. */
  let painted = 0;
  /** Painted, and its lines not drawn yet. @type {Uint8ClampedArray<ArrayBuffer> | null} */
  let pixels = null;
  /** Another size or theme of what is worked out already. */
  let again = false;

  /** @param {number} until_ms */
  function work(until_ms) {
    for (let now = performance.now(); !finished && now < until_ms;) {
      finished = study.map.work(Math.round(winds));
      const after = performance.now();
      // As many winds as take a piece's time, by half or double at once.
      winds *= Math.min(2, Math.max(0.5, slice_ms / PIECES / Math.max(after - now, 0.01)));
      winds = Math.min(Math.max(winds, 1), MOST_WINDS);
      now = after;
    }
  }

  return {
    busy: () => again || pixels !== null || !finished,
    begin(next_id, next) {
      id = next_id;
      wanted = next;
      painted = 0;
      pixels = null;
      again = true;
      const about = JSON.stringify([next.link, next.choice]);
      if (about === begun) return;
      begun = about;
      study.scene(next.link);
      study.map.begin(next.choice);
      finished = false;
      winds = FIRST_WINDS;
    },
    // One thing a slice: painting takes about as long as one.
    slice(until_ms) {
      if (!wanted) return;
      if (pixels) {
        const lines = study.map.lines().slice();
        tell({ type: 'map', id, wanted, pixels, lines, info: study.map.info(), colours: study.map.colours(wanted.theme), whole: finished },
          [pixels.buffer, lines.buffer]);
        pixels = null;
        return;
      }
      again = false;
      work(until_ms);
      const { directions } = study.map.info();
      if (directions === painted) return;
      painted = directions;
      pixels = study.map.image(wanted.size_px, wanted.theme)?.slice() ?? null;
    },
    rest() {
      wanted = null;
      begun = '';
      finished = true;
      again = false;
      pixels = null;
    },
  };
}
