// The table of the study page: a map in each cell with its numbers, which are the cell's text.
import { write } from './dom.js';
import { el, toNode } from './markup.js';
import { ALTITUDES_FT, CELLS, SPEEDS_KT } from './study-cells.js';
import { altitudeWords, cellWords, numbersOf, speedWords } from './study-words.js';
import { say } from './text.js';

/** @typedef {import('./study-work.js').MapPicture} MapPicture */

/** Pixels of a map, whatever room it has: enough for fine screens, for paper and for a file. */
export const MAP_PX = 264;

/** @param {string} kind */
const disc = (kind) => el('canvas', { class: `study-disc ${kind}`, width: String(MAP_PX), height: String(MAP_PX), 'aria-hidden': 'true' });

/** @param {import('./study-cells.js').Cell} cell */
const cellTree = (cell) => el('td', {}, el('a', { class: 'study-cell' },
  disc('for-screen'), disc('for-paper'), el('span', { class: 'visually-hidden' }, `${cellWords(cell)}: `),
  el('strong', { class: 'study-share' }), ' ', el('span', { class: 'study-typical' }), ' ', el('span', { class: 'study-worst' })));

const tableTree = () => el('table', { class: 'study-grid' },
  el('caption', { class: 'visually-hidden' }, say('page.study.title')),
  el('thead', {},
    el('tr', {}, el('td', {}), el('th', { scope: 'colgroup', colspan: String(SPEEDS_KT.length) }, say('page.study.speed'))),
    el('tr', {}, el('th', { scope: 'col' }, say('page.study.altitude')), ...SPEEDS_KT.map((kt) => el('th', { scope: 'col' }, speedWords(kt))))),
  el('tbody', {}, ...ALTITUDES_FT.map((ft) => el('tr', {},
    el('th', { scope: 'row' }, altitudeWords(ft)), ...CELLS.filter((cell) => cell.ft === ft).map(cellTree)))));

/** @param {HTMLElement} place */
export function mountGrid(place) {
  place.append(toNode(tableTree()));
  const table = /** @type {HTMLTableElement} */ (place.firstElementChild);
  const links = /** @type {HTMLAnchorElement[]} */ ([...table.querySelectorAll('.study-cell')]);

  /** @param {HTMLElement} link @param {string} name */
  const part = (link, name) => /** @type {HTMLElement} */ (link.querySelector(`.${name}`));
  /** @param {HTMLElement} link @param {{share: string, typical: string, worst: string}} numbers */
  function writeNumbers(link, numbers) {
    for (const [name, text] of Object.entries(numbers)) write(part(link, `study-${name}`), text);
  }
  /** @param {number} i @param {boolean} for_paper */
  const canvas = (i, for_paper) => /** @type {HTMLCanvasElement} */ (part(links[i], for_paper ? 'for-paper' : 'for-screen'));

  return {
    /** No number is true any more. @param {(cell: import('./study-cells.js').Cell) => string} address Where a cell leads. */
    begin(address) {
      table.setAttribute('aria-busy', 'true');
      links.forEach((link, i) => {
        link.href = address(CELLS[i]);
        link.dataset.waits = '';
        writeNumbers(link, { share: '…', typical: '', worst: '' });
      });
    },
    /** @param {number} i @param {MapPicture} picture @param {boolean} for_paper */
    show(i, { pixels, info, wanted }, for_paper) {
      canvas(i, for_paper).getContext('2d')?.putImageData(new ImageData(pixels, wanted.size_px), 0, 0);
      delete links[i].dataset.waits;
      writeNumbers(links[i], numbersOf(info));
    },
    done() {
      table.removeAttribute('aria-busy');
    },
    /** A map as a data: address. @param {number} i */
    image: (i) => canvas(i, false).toDataURL('image/png'),
  };
}
