// What happens, the sum and the plans as element trees: first paint and live page alike.
import { clock, degrees, direction, miles, whole } from './format.js';
import { el } from './markup.js';

/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').PlanRow} PlanRow */
/** @typedef {(key: string, values?: Record<string, string | number>) => string} Say */

/** Nearer than this to the course, one decimal says "0.0": on it. */
const ON_COURSE_NM = 0.05;

/**
 * How the roll-out ends, for the colour of the headline: never the only sign of it.
 * @param {number | null | undefined} cross_nm
 */
export function missKind(cross_nm) {
  if (cross_nm === null || cross_nm === undefined || !Number.isFinite(cross_nm)) return 'none';
  if (Math.abs(cross_nm) < ON_COURSE_NM) return 'on';
  return cross_nm < 0 ? 'past' : 'short';
}

/**
 * The outcome in words: the first sentence large, its miss standing out, the reasons after it.
 * @param {Evaluation} report
 */
export function happens(report) {
  const end = report.outcome.indexOf('. ');
  const first = end < 0 ? report.outcome : report.outcome.slice(0, end + 1);
  const rest = report.outcome.slice(first.length).trim();
  const at = first.indexOf(report.headline);
  const strong = el('strong', { class: `miss-${missKind(report.rollout?.cross_nm)}` }, report.headline);
  const lead = at < 0
    ? [strong, `: ${first}`]
    : [first.slice(0, at), strong, first.slice(at + report.headline.length)];
  return [el('p', { class: 'outcome' }, ...lead), ...(rest ? [el('p', { class: 'reason' }, rest)] : [])];
}

/** @param {Evaluation} report */
export function sum(report) {
  return report.sum.map((step) => el('li', {}, ...strongDirections(step)));
}

/** Directions and times that a step arrives at stand out; the last one of the step. */
/** @param {string} step */
export function strongDirections(step) {
  const found = [...step.matchAll(/\b\d{3}°|\b\d+:\d\d/g)].at(-1);
  if (!found) return [step];
  const at = found.index ?? 0;
  return [step.slice(0, at), el('strong', {}, found[0]), step.slice(at + found[0].length)];
}

/** @param {number | null | undefined} cross_nm @param {Say} say */
export function offCourse(cross_nm, say) {
  const kind = missKind(cross_nm);
  if (kind === 'none') return '\u2013';
  return say(`page.plans.off.${kind}`, { nm: miles(cross_nm) });
}

/** Wind and speed, for paper. The wind's direction is as it was given, and says so where that is true. */
/** @param {Evaluation} report @param {Say} say */
export function sceneWords({ fields, air }, say) {
  const [from, kt] = fields.wind.split('/');
  return say(fields.windref === 'true' ? 'page.card.scene.true' : 'page.card.scene',
    { from: direction(Number(from)), kt: whole(Number(kt)), tas: whole(air?.tas_kt), altitude: fields.altitude });
}

/** The plan's line as the picture draws it; nothing where the picture does not. */
/** @param {string} role */
function swatch(role) {
  const line = el('line', { class: `r-${role} s-line`, x1: '1', y1: '6', x2: '33', y2: '6' });
  return el('svg', { class: 'picture swatch', width: '34', height: '12', viewBox: '0 0 34 12',
    'aria-hidden': 'true', focusable: 'false' }, ...(role ? [line] : []));
}

/**
 * One row. The roles say what the elements are already: a narrow page lays the rows out as
 * grids, and some browsers forget the table then.
 * @param {PlanRow} plan
 * @param {Say} say
 */
function planRow(plan, say) {
  const radio = el('input', { type: 'radio', name: 'plan', value: plan.id, checked: plan.flown,
    disabled: !plan.exists });
  const name = el('th', { scope: 'row', role: 'rowheader' },
    el('label', { class: 'plan-name' }, radio, swatch(plan.role ?? ''), el('span', {}, plan.name)));
  const attrs = { role: 'row', class: plan.flown ? 'flown' : undefined };
  if (!plan.exists) {
    return el('tr', attrs, name,
      el('td', { role: 'cell', colspan: '4', class: 'why' }, plan.why ?? ''));
  }
  const cells = [degrees(plan.heading_deg), clock(plan.time_s), offCourse(plan.cross_nm, say),
    clock(plan.inbound_s)];
  return el('tr', attrs, name, ...cells.map((text) => el('td', { role: 'cell' }, text)));
}

/** Plans that stay folded until asked for, unless one of them is flown. */
const FOLDED = new Set(['exact-heading', 'exact-time']);

/** Rows of the plans table. @param {Evaluation} report @param {Say} say */
export const plans = (report, say) =>
  report.plans.filter((plan) => !FOLDED.has(plan.id)).map((plan) => planRow(plan, say));

/** Rows of its folded part. @param {Evaluation} report @param {Say} say */
export const morePlans = (report, say) =>
  report.plans.filter((plan) => FOLDED.has(plan.id)).map((plan) => planRow(plan, say));
