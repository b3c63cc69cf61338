// An example of the module: load it, ask it, show what it says. No framework, no shell.
import { load } from '../core.mjs';
import { byId, direction, miss } from './common.js';

/** @typedef {import('../core.mjs').PlanRow} PlanRow */

// The hold is the address's: plans.html#inbound=90&turns=right. docs/module.md lists the keys.
const hold = location.hash.replace(/^#/, '');
const from = byId('from', HTMLInputElement);
const speed = byId('speed', HTMLInputElement);

/** @param {number} seconds */
const clock = (seconds) => `${Math.floor(Math.round(seconds) / 60)}:${String(Math.round(seconds) % 60).padStart(2, '0')}`;
/** @param {PlanRow} plan */
function rowOf(plan) {
  const row = document.createElement('tr');
  row.classList.toggle('flown', plan.flown);
  const name = document.createElement('th');
  name.scope = 'row';
  name.textContent = plan.name;
  row.append(name);
  // A plan that does not exist has no numbers, and says why.
  const cells = plan.exists && plan.heading_deg !== null && plan.time_s !== null
    ? [direction(plan.heading_deg), clock(plan.time_s), plan.cross_nm === null ? '–' : miss(plan.cross_nm)]
    : ['–', '–', '–'];
  if (plan.why) name.title = plan.why;
  for (const text of cells) row.insertCell().textContent = text;
  return row;
}

try {
  const core = await load();
  const { scenario } = core.evaluate(hold);
  [from.value, speed.value] = scenario.wind.split('/');
  byId('hold', HTMLElement).textContent =
    `Inbound course ${direction(scenario.inbound)}, ${scenario.turns} turns; you arrive on ${direction(scenario.arrive)}.`;

  const show = () => {
    // Of a key given twice the last counts. What cannot be used is reported, never thrown.
    const answer = core.evaluate(`${hold}&wind=${from.value}/${speed.value}`);
    byId('answer', HTMLElement).textContent =
      [...answer.problems.map(({ message }) => message), answer.outcome].join(' ');
    byId('plans', HTMLElement).replaceChildren(...answer.plans.map(rowOf));
  };
  byId('wind', HTMLFormElement).addEventListener('input', show);
  show();
} catch (error) {
  byId('answer', HTMLElement).textContent = `The module could not be loaded: ${error instanceof Error ? error.message : error}`;
}
