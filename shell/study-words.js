// The study page in words and numbers.
import { direction, known } from './format.js';
import { counted, say } from './text.js';
import { percent, planName, shareWords } from './winds-words.js';

/** @typedef {import('./study.mjs').MapInfo} MapInfo */
/** @typedef {import('./study.mjs').Mapped} Mapped */
/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {import('./study-cells.js').Cell} Cell */
/** @typedef {{cell: Cell, info: MapInfo}} Result */

const DECIMALS = { miss: 2, inbound: 0, intercept: 0, multiple: 1 };
const WHOLE = new Intl.NumberFormat(say('page.lang'), { maximumFractionDigits: 0 });

/** @param {number} kt */
export const speedWords = (kt) => say('page.study.kt', { kt });
/** @param {number} ft */
export const altitudeWords = (ft) => say('page.study.ft', { ft: WHOLE.format(ft) });
/** @param {Cell} cell */
export const cellWords = ({ kt, ft }) => say('page.study.at', { speed: speedWords(kt), altitude: altitudeWords(ft) });

/** How far something is off. @param {Mapped} mapped @param {number | null} value */
function off(mapped, value) {
  if (!known(value)) return say('page.study.off.none');
  if (mapped === 'laps') return counted('page.study.off.laps', Math.round(value));
  return say(`page.study.off.${mapped}`, { n: value.toFixed(DECIMALS[mapped]) });
}

/** Of two rules that are compared the numbers are of their difference. @param {{less: unknown}} of */
const ofLess = ({ less }) => (less ? '.less' : '');

/** What stands under a map. @param {MapInfo} info */
export const numbersOf = (info) => ({
  share: percent(info.share),
  typical: say(`page.study.typical${ofLess(info)}`, { off: off(info.mapped, info.spread.median) }),
  worst: say(`page.study.worst${ofLess(info)}`, { off: off(info.mapped, info.spread.most) }),
});

/** @param {Pick<MapInfo, 'plan' | 'less'>} of */
const names = ({ plan, less }) => ({ plan: planName(plan), less: less ? planName(less) : '' });
/** What those numbers are. @param {Pick<MapInfo, 'plan' | 'less'>} of */
export const numbersHint = (of) => say(`page.study.hint.numbers${ofLess(of)}`, names(of));
/** What they are, as the head of a column. @param {MapInfo} info @param {'share' | 'mean' | 'median' | 'ninety_five' | 'most'} number */
export const columnWords = (info, number) =>
  say(`page.study.column${ofLess(info)}.${number}`, { ...names(info), unit: say(`page.study.unit.${info.mapped}`) });

/**
 * A picture whose key is true of the whole grid: the wanted inbound time is not the same at all altitudes.
 * @param {MapPicture} picture @returns {MapPicture}
 */
export const keyed = (picture) => (picture.info.mapped === 'inbound' ? { ...picture, info: { ...picture.info, middle: 0 } } : picture);

/** The hold, without what the grid has. @param {Record<string, string>} fields As the core's report has them. */
export const holdWords = ({ inbound, turns, arrive, leg }) => say('page.study.hold', {
  inbound: direction(Number(inbound)), turns: say(`page.field.turns.${turns}`), arrive: direction(Number(arrive)),
  legs: leg ? say('page.study.legs', { leg }) : say('page.study.legs.usual'),
});

/** Where it does best, and where worst. @param {Result[]} results */
export function headingWords(results) {
  const by_share = [...results].sort((a, b) => b.info.share - a.info.share);
  const best = by_share[0];
  const worst = by_share[by_share.length - 1];
  return say('page.study.says', { best: cellWords(best.cell), sentence: shareWords(best.info, say('page.study.wanted')).whole,
    worst: cellWords(worst.cell), share: percent(worst.info.share) });
}
