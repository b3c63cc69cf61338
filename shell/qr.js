// A link as a QR code, for paper.
import { el } from './markup.js';
import qrcode from './qrcode.mjs';

/** Longer links want a code that is too fine for a copied sheet: version 10 at level M is the last. */
export const MOST_BYTES = 213;
/** Light modules around the code, after ISO/IEC 18004. */
const QUIET = 4;
const MODULE_MM = 0.5;

/** Its dark modules, a path of one rectangle for each run in a row. @param {ReturnType<typeof qrcode>} code */
function darkPath(code) {
  const count = code.getModuleCount();
  let path = '';
  for (let row = 0; row < count; row += 1) {
    for (let from = 0; from < count; from += 1) {
      let to = from;
      while (to < count && code.isDark(row, to)) to += 1;
      if (to > from) path += `M${from + QUIET} ${row + QUIET}h${to - from}v1h${from - to}z`;
      from = to;
    }
  }
  return path;
}

/**
 * Black on white, each module of one size. None where the address is too long for it.
 * @param {string} address ASCII. @param {string} name
 * @returns {import('./markup.js').Element[]}
 */
export function qrTree(address, name) {
  if (address.length > MOST_BYTES) return [];
  const code = qrcode(0, 'M');
  code.addData(address);
  code.make();
  const size = code.getModuleCount() + 2 * QUIET;
  return [el('svg', { class: 'paper-qr', role: 'img', 'aria-label': name, viewBox: `0 0 ${size} ${size}`,
    width: `${size * MODULE_MM}mm`, height: `${size * MODULE_MM}mm`, 'shape-rendering': 'crispEdges' },
  el('path', { fill: '#fff', d: `M0 0h${size}v${size}H0z` }), el('path', { fill: '#000', d: darkPath(code) }))];
}
