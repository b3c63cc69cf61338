// The study page as files: its numbers as a table, and the whole grid as a drawing.
import { csvText } from './csv.js';
import { known } from './format.js';
import { el } from './markup.js';
import { download } from './practice-store.js';
import { ALTITUDES_FT, CELLS, SPEEDS_KT, linkAt } from './study-cells.js';
import { altitudeWords, columnWords, numbersHint, numbersOf, speedWords } from './study-words.js';
import { svgFile } from './svg-file.js';
import { say } from './text.js';
import { hasRules, scaleOf } from './winds-key.js';
import { PLANS, planName } from './winds-words.js';

/** @typedef {import('./study-words.js').Result} Result */
/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {import('./types').Core} Core */

/** Columns of what the maps say. */
const NUMBERS = /** @type {const} */ (['share', 'mean', 'median', 'ninety_five', 'most']);

/** @param {number | null} x @param {number} decimals */
const rounded = (x, decimals) => (known(x) ? Number(x.toFixed(decimals)) : null);

/** "study-miss-drift-once-30-0.25" @param {Result[]} results */
const fileName = ([{ info }]) => ['study', info.mapped, info.plan, ...(info.less ? ['less', info.less] : []), info.most_kt, info.tolerance_nm].join('-');

/**
 * A row for each speed and altitude.
 * @param {Result[]} results @param {string} link @param {Promise<Core | null>} coming
 */
export async function saveCsv(results, link, coming) {
  const core = await coming;
  /** @type {(string | number | null)[][]} */
  const rows = [[...['ias', 'altitude', 'tas', 'rate', 'radius'].map((name) => say(`page.study.column.${name}`)),
    ...NUMBERS.map((name) => columnWords(results[0].info, name))]];
  for (const { cell, info: { share, spread } } of results) {
    const air = core?.evaluate(linkAt(link, cell)).air;
    rows.push([cell.kt, cell.ft, rounded(air?.tas_kt ?? null, 1), rounded(air?.turn_rate_deg_s ?? null, 3), rounded(air?.turn_radius_nm ?? null, 3),
      rounded(100 * share, 2), ...[spread.mean, spread.median, spread.ninety_five, spread.most].map((x) => rounded(x, 3))]);
    // A case takes a while to work out: whatever else is to be done comes between.
    await new Promise((done) => { setTimeout(done, 0); });
  }
  download(csvText(rows), `${fileName(results)}.csv`, 'text/csv');
}

/** The drawing's measures, px. */
const LEFT = 96;
const TOP = 96;
const WIDE = 148;
const HIGH = 178;
const DISC = 112;
const KEY = { width: 420, height: 12, whole: 66 };

/** @param {number} x @param {number} y @param {string} text @param {string} [kind] @param {'start' | 'middle' | 'end'} [anchor] */
const words = (x, y, text, kind = '', anchor = 'middle') => el('text', { x: String(x), y: String(y), class: kind, 'text-anchor': anchor }, text);

/** @param {Result} result @param {number} i @param {string} image */
function cellTrees({ info }, i, image) {
  const x = LEFT + WIDE * (i % SPEEDS_KT.length) + WIDE / 2;
  const y = TOP + HIGH * Math.floor(i / SPEEDS_KT.length);
  const { share, typical, worst } = numbersOf(info);
  return [
    el('image', { x: String(x - DISC / 2), y: String(y), width: String(DISC), height: String(DISC), href: image }),
    el('circle', { class: 'edge', cx: String(x), cy: String(y + DISC / 2), r: String(DISC / 2), fill: 'none' }),
    words(x, y + DISC + 22, share, 'share'), words(x, y + DISC + 38, typical, 'small'), words(x, y + DISC + 52, worst, 'small')];
}

/** @param {MapPicture} picture @param {number} top */
function keyTrees(picture, top) {
  if (hasRules(picture)) {
    return picture.colours.rules.flatMap((colour, i) => [
      el('path', { class: 'edge', d: `M${LEFT + 210 * i} ${top}h18v12h-18Z`, fill: colour }),
      words(LEFT + 210 * i + 26, top + 10, planName(PLANS[i]), '', 'start')]);
  }
  const { bar, marks, ends } = scaleOf(picture);
  const at = (/** @type {number} */ i) => LEFT + (KEY.width * i) / (marks.length - 1);
  return [
    el('svg', { viewBox: bar.attrs.viewBox, preserveAspectRatio: 'none', x: String(LEFT), y: String(top), width: String(KEY.width), height: String(KEY.height) }, ...bar.children),
    ...marks.map((mark, i) => words(at(i), top + 28, mark)),
    words(LEFT, top + 44, ends[0], 'small', 'start'), words(LEFT + KEY.width, top + 44, ends[1], 'small', 'end')];
}

/** @param {Result[]} results @param {MapPicture} picture Any of theirs. @param {(i: number) => string} image @param {string[]} said */
export function saveSvg(results, picture, image, said) {
  const width = LEFT + WIDE * SPEEDS_KT.length + 8;
  const below = TOP + HIGH * ALTITUDES_FT.length;
  const title = say('page.study.title');
  const heads = [
    words(8, 24, title, 'title', 'start'),
    words(LEFT + (WIDE * SPEEDS_KT.length) / 2, TOP - 40, say('page.study.speed'), 'head'),
    ...SPEEDS_KT.map((kt, i) => words(LEFT + WIDE * i + WIDE / 2, TOP - 16, speedWords(kt), 'head')),
    words(LEFT / 2, TOP - 16, say('page.study.altitude'), 'head'),
    ...ALTITUDES_FT.map((ft, i) => words(LEFT / 2, TOP + HIGH * i + DISC / 2, altitudeWords(ft), 'head'))];
  const text = svgFile({
    width, height: below + KEY.whole, title,
    style: ({ ink, quiet }) => `.title,.share{font-size:18px}.title,.head,.share{font-weight:600}.small{font-size:11px;fill:${quiet}}`
      + `.edge{stroke:${ink};stroke-opacity:.5}`,
    trees: [...heads, ...CELLS.flatMap((_, i) => cellTrees(results[i], i, image(i))), ...keyTrees(picture, below + 8)],
    said: [...said, numbersHint(results[0].info), say('page.caution')].filter(Boolean),
  });
  download(text, `${fileName(results)}.svg`, 'image/svg+xml');
}
