// Clouds at work: the flights, their picture, then which uncertainty matters most.

/** @typedef {import('./study.mjs').Study} Study */
/** @typedef {import('./study-work.js').Told} Told */
/** @typedef {import('./study-work.js').CloudWanted} CloudWanted */

export const FLIGHTS = 10000;
/** Flights that the shares of variance are made of; each needs eight. */
const SHARED = 4000;
/** At once: well under a millisecond's. */
const PIECE = 1000;
const SHARED_PIECE = 125;
const TRACKS = 300;

/**
 * @param {Study} study
 * @param {(told: Told, moved: ArrayBuffer[]) => void} tell
 * @returns {import('./study-work.js').Job<CloudWanted>}
 */
export function cloudJob(study, tell) {
  /** @type {CloudWanted | null} */
  let wanted = null;
  let id = 0;
  /** Link, spreads and seed of the cloud begun. */
  let begun = '';
  let flown = 0;
  let shared = 0;
  let to_paint = false;
  /** Of the newest shares nothing was told yet. */
  let to_tell = false;
  /** @type {Uint8ClampedArray<ArrayBuffer> | null} */
  let pixels = null;

  /** @param {number} until_ms */
  function fly(until_ms) {
    while (flown < FLIGHTS && performance.now() < until_ms) {
      study.cloud.fly(PIECE);
      flown += PIECE;
    }
  }

  /** @param {number} until_ms */
  function share(until_ms) {
    while (shared < SHARED && performance.now() < until_ms) {
      study.cloud.share(SHARED_PIECE);
      shared += SHARED_PIECE;
    }
  }

  return {
    busy: () => to_paint || pixels !== null || to_tell,
    begin(next_id, next) {
      id = next_id;
      wanted = next;
      pixels = null;
      to_paint = true;
      to_tell = true;
      const about = JSON.stringify([next.link, next.spread, next.seed]);
      if (about === begun) return;
      begun = about;
      study.scene(next.link);
      study.cloud.begin(next.spread, next.seed);
      flown = 0;
      shared = 0;
    },
    slice(until_ms) {
      if (!wanted) return;
      if (pixels) {
        const lines = study.cloud.lines().slice();
        tell({ type: 'cloud', id, wanted, pixels, lines, info: study.cloud.info(wanted.tolerance_nm) }, [pixels.buffer, lines.buffer]);
        pixels = null;
      } else if (flown < FLIGHTS) {
        fly(until_ms);
      } else if (to_paint) {
        to_paint = false;
        pixels = study.cloud.image(wanted.view, { ...wanted.inks, count: TRACKS })?.slice() ?? new Uint8ClampedArray(0);
      } else {
        share(until_ms);
        if (shared < SHARED) return;
        to_tell = false;
        tell({ type: 'shares', id, info: study.cloud.info(wanted.tolerance_nm) }, []);
      }
    },
    rest() {
      wanted = null;
      begun = '';
      pixels = null;
      to_paint = false;
      to_tell = false;
    },
  };
}
