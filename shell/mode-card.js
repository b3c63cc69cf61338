// The mode "Today's card": hold, speed and wind in, one card out, to be read at a glance or
// printed. Every number is the report's.
import { byId } from './dom.js';
import { clock, degrees, direction, known, whole } from './format.js';
import { el } from './markup.js';
import { missKind, offCourse, sceneWords } from './outcome-markup.js';
import { createLending } from './panels.js';
import { patcher } from './patch.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').PlanRow} PlanRow */
/** @typedef {import('./markup.js').Element} Tree */

/** Rows of the table: the rules, then what would have been exact. */
const RULES = ['still-air', 'drift-once', 'track-30', 'drift-triple'];
const EXACT = 'exact';

/** "12° right". @param {number | null | undefined} deg */
function correction(deg) {
  if (!known(deg)) return '\u2013';
  if (Math.round(deg) === 0) return say('page.card.none');
  return say(`page.card.correction.${deg > 0 ? 'right' : 'left'}`, { deg: whole(deg) });
}

/**
 * One fact of the card.
 * @param {string} name @param {string} value @param {string} [note]
 */
const fact = (name, value, note) => el('div', { class: 'card-fact' },
  el('dt', {}, say(`page.card.${name}`)), el('dd', {}, value),
  ...(note ? [el('dd', { class: 'card-note' }, note)] : []));

/** @param {Evaluation} report */
function facts(report) {
  const entry = report.entries?.find(({ flown }) => flown);
  const inbound = report.wind.inbound;
  const others = (report.entries ?? []).filter(({ acceptable, flown }) => acceptable && !flown);
  return el('dl', { class: 'card-facts' },
    fact('entry', entry?.label ?? '\u2013', others.length ? say('page.card.also', { entry: others[0].label }) : undefined),
    fact('heading', degrees(report.entry?.heading_deg)),
    fact('correction', correction(inbound?.wca_deg), inbound ? say('page.card.inbound_heading', { heading: degrees(inbound.heading_deg) }) : undefined),
    fact('time', clock(report.entry?.time_s)),
    fact('inbound', clock(report.rollout?.inbound_s), say('page.card.wanted', { time: clock(report.published_s) })));
}

/** @param {PlanRow[]} plans */
const rules = (plans) => el('table', { class: 'numbers card-rules' },
  el('caption', {}, say('page.card.rules')),
  el('thead', {}, el('tr', {}, ...['rule', 'heading', 'time', 'off'].map((name) => el('th', { scope: 'col' }, say(`page.card.head.${name}`))))),
  el('tbody', {}, ...[...RULES, EXACT].flatMap((id) => {
    const row = plans.find((plan) => plan.id === id);
    if (!row) return [];
    return [el('tr', { class: row.flown ? 'now' : undefined },
      el('th', { scope: 'row' }, row.name), el('td', {}, degrees(row.heading_deg)), el('td', {}, clock(row.time_s)),
      el('td', { class: known(row.cross_nm) ? missKind(row.cross_nm) : undefined }, row.exists ? offCourse(row.cross_nm, say) : (row.why ?? '\u2013')))];
  })));

/** @param {Evaluation} report @returns {Tree[]} */
function sheet(report) {
  const { fields } = report;
  return [
    el('h3', { class: 'card-head' }, say('page.card.hold', { inbound: direction(Number(fields.inbound)), turns: say(`page.card.turns.${fields.turns}`) })),
    el('p', { class: 'card-scene' }, sceneWords(report, say)),
    facts(report),
    el('p', { class: 'outcome' }, report.outcome),
    rules(report.plans),
    el('p', { class: 'card-caution' }, say('page.caution')),
  ];
}

/** @param {Hub} hub @returns {import('./modes.js').Mode} */
export function cardMode(hub) {
  const section = byId('mode-card', HTMLElement);
  const show = patcher(byId('card-sheet', HTMLElement));
  const lending = createLending();
  byId('card-print', HTMLButtonElement).addEventListener('click', () => window.print());
  return {
    open: () => lending.lendTo(section),
    close: () => lending.takeBack(),
    scenario: (report) => show(sheet(report)),
  };
}
