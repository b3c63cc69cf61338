// The grid of the study page: its speeds and altitudes, and its maps worked out one by one.

/** @typedef {import('./study-work.js').MapWanted} MapWanted */
/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {{kt: number, ft: number}} Cell Indicated airspeed and altitude. */

/** From trainers on their slowest hold to beyond them. */
export const SPEEDS_KT = [80, 90, 105, 120, 150, 180];
/** Above 14,000 ft the usual leg is longer. */
export const ALTITUDES_FT = [2000, 4000, 8000, 12000, 16000];
/** Row by row. @type {Cell[]} */
export const CELLS = ALTITUDES_FT.flatMap((ft) => SPEEDS_KT.map((kt) => ({ kt, ft })));

/** The scene at a cell's speed and altitude. @param {string} link @param {Cell} cell */
export const linkAt = (link, { kt, ft }) =>
  [...link.split('&').filter((pair) => pair && !/^(ias|tas|altitude)=/.test(pair)), `altitude=${ft}`, `ias=${kt}`].join('&');

/**
 * Has maps worked out in their order, one at a time; what is asked for last wins.
 * @param {{map: (wanted: MapWanted) => void}} host
 * @param {(i: number, picture: MapPicture) => void} onMap A whole one, by its place in what was asked for.
 */
export function createQueue(host, onMap) {
  /** @type {MapWanted[]} */
  let wanted = [];
  let at = 0;

  function next() {
    if (at < wanted.length) host.map(wanted[at]);
  }
  return {
    /** @param {MapWanted[]} all */
    ask(all) {
      wanted = all;
      at = 0;
      next();
    },
    /** @param {MapPicture} picture */
    came(picture) {
      if (!picture.whole || JSON.stringify(picture.wanted) !== JSON.stringify(wanted[at])) return;
      at += 1;
      next();
      onMap(at - 1, picture);
    },
  };
}
