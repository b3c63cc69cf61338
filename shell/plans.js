// What happens, the sum, and the table of plans, kept up to date; a row's radio flies it.
import { byId, write } from './dom.js';
import { plansFixed } from './instructor.js';
import { happens, morePlans, plans, sum } from './outcome-markup.js';
import { patcher } from './patch.js';
import { say } from './text.js';

/** @param {import('./hub.js').Hub} hub */
export function mountPlans(hub) {
  const { session } = hub;
  const body = byId('plans', HTMLTableSectionElement);
  const folded = byId('plans-more', HTMLTableSectionElement);
  const more = byId('more-plans', HTMLButtonElement);
  const summary = byId('summary', HTMLElement);
  const patchHappens = patcher(byId('happens', HTMLElement));
  const patchSum = patcher(byId('sum', HTMLElement));
  const patchPlans = patcher(body);
  const patchFolded = patcher(folded);

  /** @returns {HTMLInputElement[]} */
  const radios = () => [...document.querySelectorAll('input[name="plan"]')]
    .filter((radio) => radio instanceof HTMLInputElement);

  /** @param {boolean} open */
  function unfold(open) {
    folded.hidden = !open;
    more.setAttribute('aria-expanded', String(open));
    write(more, say(open ? 'page.plans.fewer' : 'page.plans.more'));
  }

  hub.add({
    scenario(report) {
      const focused = radios().find((radio) => radio === document.activeElement)?.value;
      patchHappens(happens(report));
      patchSum(sum(report));
      patchPlans(plans(report, say));
      patchFolded(morePlans(report, say));
      const flown = report.plans.find((plan) => plan.flown)?.id;
      for (const radio of radios()) {
        radio.checked = radio.value === flown;
        if (plansFixed()) radio.disabled = true;
      }
      if (folded.querySelector(':checked')) unfold(true);
      const place = radios().find((radio) => radio.value === focused);
      if (place && place !== document.activeElement) place.focus();
      write(summary, report.summary);
    },
  });

  more.disabled = false;
  more.addEventListener('click', () => unfold(folded.hidden !== false));
  for (const part of [body, folded]) {
    part.addEventListener('change', (event) => {
      const radio = event.target;
      if (radio instanceof HTMLInputElement) hub.change(session.choose(radio.value));
    });
  }
}
