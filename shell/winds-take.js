// The map as files: its numbers as a table, and the picture with what stands over it.
import { csvText } from './csv.js';
import { el } from './markup.js';
import { svgFile } from './svg-file.js';
import { say } from './text.js';
import { MARGIN_PX } from './winds-map.js';

/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {import('./study-work.js').WindAt} WindAt */

/** Rows of the table: every so many degrees, and so many speeds besides calm. */
const EVERY_DEG = 5;
const SPEEDS = 12;

/** @param {number} most_kt @returns {WindAt[]} */
export function tableWinds(most_kt) {
  /** @type {WindAt[]} */
  const winds = [];
  for (let i = 0; i <= SPEEDS; i += 1) {
    for (let deg = EVERY_DEG; deg <= 360; deg += EVERY_DEG) winds.push([deg, (i * most_kt) / SPEEDS]);
  }
  return winds;
}

/** Empty where there is no value. @param {string} name Of the values. @param {WindAt[]} winds @param {(number | null)[]} values */
export const tableText = (name, winds, values) =>
  csvText([[say('page.winds.column.from'), say('page.winds.column.kt'), name], ...winds.map(([deg, kt], i) => [deg, kt, values[i]])]);

/** Rules of the map in a file of its own, as shell/mode-winds.css has them. @param {import('./svg-file.js').Inks} inks */
const styleOf = ({ ink, paper, quiet }) =>
  `.m-ring,.m-rim,.m-tick,.m-line,.m-hold path{fill:none;stroke:${ink}}`
    + '.m-ring{stroke-opacity:.16}.m-rim,.m-tick{stroke-opacity:.5}.m-line{stroke-width:1.1;stroke-opacity:.75}.m-below{stroke-dasharray:5 3.5}'
    + `.m-hold path{stroke-width:2;stroke-opacity:.45}.m-hold .m-arrow{fill:${ink};fill-opacity:.6;stroke:none}`
    + `.m-label{stroke:${paper};stroke-width:3px;stroke-opacity:.85;stroke-linejoin:round;paint-order:stroke}.m-knots{fill:${quiet}}`
    + '.m-direction{stroke:none;font-weight:600}';

/**
 * @param {number} size
 * @param {HTMLCanvasElement} canvas
 * @param {(under: Tree[]) => Tree} overlay
 * @param {string} title
 * @param {string[]} said Sentences below it.
 */
export function mapSvg(size, canvas, overlay, title, said) {
  const inner = String(size - 2 * MARGIN_PX);
  const image = el('image', { x: String(MARGIN_PX), y: String(MARGIN_PX), width: inner, height: inner, href: canvas.toDataURL('image/png') });
  return svgFile({ width: size, height: size, title, style: styleOf, trees: [overlay([image])], said });
}
