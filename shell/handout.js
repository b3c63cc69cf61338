// The handout: the case that is open in Explore, on paper, without what an instructor hides.
// Every number is the report's.
import { clock, degrees, direction } from './format.js';
import { isHidden } from './instructor.js';
import { el } from './markup.js';
import { offCourse, sceneWords, sum } from './outcome-markup.js';
import { paperSheet } from './paper-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').PlanRow} PlanRow */
/** @typedef {import('./markup.js').Element} Tree */

const COLUMNS = ['plan', 'heading', 'time', 'off', 'inbound'];

/** @param {PlanRow} plan */
function planRow(plan) {
  const name = el('th', { scope: 'row' }, plan.name);
  if (!plan.exists) return el('tr', {}, name, el('td', { colspan: '4' }, plan.why ?? ''));
  const heading = degrees(plan.heading_deg);
  return el('tr', { class: plan.flown ? 'now' : undefined }, name,
    ...[heading, clock(plan.time_s), offCourse(plan.cross_nm, say), clock(plan.inbound_s)].map((text) => el('td', {}, text)));
}

/** @param {PlanRow[]} plans */
const table = (plans) => el('table', { class: 'paper-table' },
  el('thead', {}, el('tr', {}, ...COLUMNS.map((name) => el('th', { scope: 'col' }, say(`page.plans.${name}`))))),
  el('tbody', {}, ...plans.map(planRow)));

/** @param {string} name Of instructor.js's parts. @param {() => Tree[]} make */
const part = (name, make) => (isHidden(name) ? [] : make());

/**
 * @param {Evaluation} report @param {string} address Of the case.
 * @returns {Tree} With an empty .paper-picture for the picture.
 */
export function handoutTree(report, address) {
  const { fields } = report;
  const facts = [
    say('page.card.hold', { inbound: direction(Number(fields.inbound)), turns: say(`page.card.turns.${fields.turns}`) }),
    sceneWords(report, say),
  ];
  return paperSheet('paper-handout', { title: say('page.handout.title'), facts, link: { words: say('page.handout.link'), address } }, [
    el('div', { class: 'paper-picture' }),
    el('div', { class: 'paper-pair' },
      ...part('outcome', () => [el('div', {}, el('h3', {}, say('page.happens')), el('p', {}, report.outcome))]),
      ...part('sum', () => [el('div', {}, el('h3', {}, say('page.sum')), el('ol', { class: 'paper-steps' }, ...sum(report)))])),
    ...part('plans', () => [el('h3', {}, say('page.handout.plans')), table(report.plans.filter(({ id }) => !id.startsWith('exact') || !isHidden('exact')))]),
  ]);
}
