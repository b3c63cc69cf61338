// A map over all winds in words: what a value means, the sentence that sums it up, its lines.
import { clock, direction, known, whole } from './format.js';
import { counted, say } from './text.js';

/** @typedef {import('./study.mjs').MapInfo} MapInfo */
/** @typedef {import('./study.mjs').MapPlan} MapPlan */
/** @typedef {import('./study.mjs').Mapped} Mapped */

export const MAPPED = /** @type {const} */ (['miss', 'inbound', 'intercept', 'multiple', 'laps']);
export const PLANS = /** @type {const} */ (['still-air', 'drift-once', 'track-30', 'drift-triple', 'own', 'best']);
/** Nearer than this is on the course: two decimals say nothing of it. */
const NOTHING_NM = 0.005;
/** Stands for the share in its sentence, where the page sets it apart. */
const SHARE = '\u0000';

/** @param {MapPlan} plan */
export const planName = (plan) => say(`page.winds.plan.${plan}`);

/** In a sentence, where nearly none is not none. @param {number} share */
export function shareOf(share) {
  if (share > 0 && share < 0.005) return say('page.winds.percent.less');
  return share < 1 && share >= 0.995 ? say('page.winds.percent.more') : percent(share);
}

/** In whole ones. @param {number} share */
export const percent = (share) => say('page.winds.percent', { n: Math.round(100 * share) });

/** "0.25", "1". @param {number} nm */
const nm = (nm) => String(Number(Math.abs(nm).toFixed(2)));

/**
 * What a value says.
 * @param {Pick<MapInfo, 'mapped' | 'less'>} map @param {number | null} value
 */
export function valueWords({ mapped, less }, value) {
  if (!known(value)) return say(`page.winds.none.${mapped}`);
  switch (mapped) {
    case 'inbound': return say('page.winds.value.inbound', { time: clock(value) });
    case 'intercept': return say('page.winds.value.intercept', { deg: whole(value) });
    case 'multiple': return say('page.winds.value.multiple', { times: value.toFixed(1).replace('-', '\u2212') });
    case 'laps': return counted('page.winds.value.laps', Math.round(value));
    default: break;
  }
  if (less) {
    const kind = Math.abs(value) < NOTHING_NM ? 'alike' : value < 0 ? 'nearer' : 'farther';
    return say(`page.winds.value.${kind}`, { nm: Math.abs(value).toFixed(2), less: planName(less) });
  }
  const kind = Math.abs(value) < NOTHING_NM ? 'on' : value < 0 ? 'past' : 'short';
  return say(`page.winds.value.${kind}`, { nm: Math.abs(value).toFixed(2) });
}

/** One wind and its value. @param {MapInfo} map @param {number} from_deg @param {number} kt @param {number | null} value */
export const windWords = (map, from_deg, kt, value) =>
  say('page.winds.at', { from: direction(from_deg), kt: whole(kt), value: valueWords(map, value) });

/**
 * The sentence that sums the map up: before its share, the share, and after it.
 * @param {MapInfo} map @param {string} [time] The wanted inbound time.
 */
export function shareWords(map, time = clock(map.middle)) {
  const { mapped, plan, less, share, most_kt, tolerance_nm, middle } = map;
  const kind = less ? 'less' : mapped === 'miss' && plan === 'best' ? 'best' : mapped;
  const text = say(`page.winds.share.${kind}`, {
    share: SHARE, plan: planName(plan), less: less ? planName(less) : '', kt: whole(most_kt), nm: nm(tolerance_nm),
    time, slack: whole((map.range[1] ?? 0) - middle),
    low: String(map.range[0] ?? ''), high: String(map.range[1] ?? ''),
  });
  const [before, after = ''] = text.split(SHARE);
  return { before, share: shareOf(share), after, whole: `${before}${shareOf(share)}${after}` };
}

/** The number at a line, and in the key. @param {Mapped} mapped @param {number} level */
export function levelWords(mapped, level) {
  switch (mapped) {
    case 'inbound': return clock(level);
    case 'intercept': return `${whole(level)}°`;
    case 'multiple': return `${level}×`;
    case 'laps': return Number.isInteger(level) ? String(level) : '';
    default: return `${level < 0 ? '\u2212' : ''}${nm(level)}`;
  }
}
