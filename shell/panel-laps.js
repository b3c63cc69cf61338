// The view "Laps": lap after lap, what each tells the next, and how much correction is right.
import { byId } from './dom.js';
import { clock, degrees, direction, known, whole } from './format.js';
import { offCourse } from './outcome-markup.js';
import { paragraphs, part, table } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').Lap} Lap */
/** @typedef {import('./types').Multiples} Multiples */

/** "2.6 times". @param {number | null | undefined} multiple */
const times = (multiple) => (known(multiple) ? say('page.laps.times', { n: multiple.toFixed(1) }) : '\u2013');

/** "100°, 12° right". @param {Lap} lap */
function heading(lap) {
  const text = degrees(lap.outbound_heading_deg);
  const off = lap.correction_deg;
  if (!known(off) || Math.round(off) === 0) return text;
  return say(`page.laps.corrected.${off > 0 ? 'right' : 'left'}`, { heading: text, deg: whole(off) });
}

/** @param {Lap[]} laps */
const lapTable = (laps) => table(say('page.laps'),
  ['lap', 'heading', 'outbound', 'off', 'inbound'].map((name) => say(`page.laps.head.${name}`)),
  laps.map((lap, i) => ({
    cells: [String(i + 1), heading(lap), clock(lap.outbound_s), offCourse(lap.cross_nm, say), clock(lap.inbound_s)],
    note: lap.advice,
  })));

/** @param {Multiples} multiples */
const multiplesTable = (multiples) => table(say('page.laps.multiples'),
  ['multiple', 'heading', 'outbound', 'off'].map((name) => say(`page.laps.head.${name}`)),
  multiples.rows.map((row) => ({
    cells: [row.label, degrees(row.heading_deg), clock(row.outbound_s), offCourse(row.cross_nm, say)],
  })));

/** @param {Multiples} multiples */
const byWind = (multiples) => table(say('page.laps.by_wind'),
  ['wind', 'exact', 'triple', 'once'].map((name) => say(`page.laps.head.${name}`)),
  multiples.by_wind.map((row) => ({
    cells: [say('page.wind.value', { from: direction(row.from_deg), kt: whole(row.speed_kt) }), times(row.exact),
      offCourse(row.triple_cross_nm, say), offCourse(row.once_cross_nm, say)],
  })));

/** @returns {import('./panels.js').Panel} */
export function lapsPanel() {
  const none = byId('laps-none', HTMLElement);
  const showLaps = part('laps-table');
  const showTiming = part('laps-timing');
  const showWords = part('multiples-words');
  const showWhy = part('multiples-why');
  const showMultiples = part('multiples');
  const showByWind = part('by-wind');
  return {
    scenario({ laps, multiples, timing }) {
      none.hidden = Boolean(laps?.length);
      showLaps(laps?.length ? [lapTable(laps)] : []);
      showTiming(paragraphs(timing));
      showMultiples(multiples?.rows?.length ? [multiplesTable(multiples)] : []);
      const [first, ...reasons] = multiples?.words ?? [];
      showWords(paragraphs(first, multiples?.why));
      showWhy(paragraphs(reasons));
      showByWind(multiples?.by_wind?.length ? [byWind(multiples)] : []);
    },
  };
}
