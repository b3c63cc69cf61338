// The view "Limits": how fast one may hold, where to slow down, what limits the turn, and the
// airspace that the hold is given, indicatively.
import { byId, write } from './dom.js';
import { known } from './format.js';
import { el } from './markup.js';
import { paragraphs, part, table } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').Limits} Limits */
/** @typedef {import('./types').SpeedRow} SpeedRow */

const FEET = new Intl.NumberFormat('en', { maximumFractionDigits: 0 });

/** "above 6,000 to 14,000 ft". @param {SpeedRow} row */
function band({ above_ft, up_to_ft }) {
  const above = known(above_ft) ? FEET.format(above_ft) : '';
  const up_to = known(up_to_ft) ? FEET.format(up_to_ft) : '';
  const kind = above && up_to ? 'between' : above ? 'above' : up_to ? 'up_to' : 'all';
  return say(`page.limits.band.${kind}`, { above, up_to });
}

/** "280 kt or Mach 0.80, the lesser". @param {SpeedRow} row */
function most({ ias_kt, mach }) {
  if (known(ias_kt) && known(mach)) return say('page.limits.either', { kt: ias_kt, mach: mach.toFixed(2) });
  return known(ias_kt) ? say('page.knots', { kt: ias_kt }) : known(mach) ? say('page.limits.mach', { mach: mach.toFixed(2) }) : '\u2013';
}

/** @param {Limits} limits */
const tables = (limits) => (limits.tables ?? []).map(({ rule, label, rows }) => el('div', {},
  el('h3', {}, rule === limits.rule ? say('page.limits.in_force', { table: label }) : label),
  table(label, [say('page.limits.head.altitude'), say('page.limits.head.most')], rows.map((row) => ({
    cells: [row.now ? say('page.limits.now', { band: band(row) }) : band(row), most(row)],
    now: row.now,
  })))));

/** @returns {import('./panels.js').Panel} */
export function limitsPanel() {
  const caption = byId('area-caption', HTMLElement);
  const exceptions = byId('limits-exceptions', HTMLElement);
  const showSpeed = part('limits-words');
  const showTables = part('limits-tables');
  const showExceptions = part('limits-exceptions');
  const showTurn = part('limits-turn');
  const showArea = part('area-words');
  return {
    layers: ['area', 'limits'],
    scenario({ limits, roll, area }) {
      showTables(limits ? tables(limits) : []);
      showExceptions((limits?.exceptions ?? []).map((text) => el('li', {}, text)));
      exceptions.closest('details')?.toggleAttribute('hidden', !limits?.exceptions?.length);
      showSpeed(paragraphs(limits?.words, limits?.slow_down?.words));
      showTurn(paragraphs(limits?.rate?.words, limits?.bank_words, roll?.words));
      write(caption, area?.caption ?? '');
      showArea(paragraphs(area?.why, area?.words, area?.inside_words, area?.faa_wind_words));
    },
  };
}
