// What happens, the sum, and the table of plans, kept up to date; a row's radio flies it.
import { byId, write } from './dom.js';
import { toHtml, toNode } from './markup.js';
import { happens, morePlans, plans, sum } from './outcome-markup.js';
import { say } from './text.js';

/** @typedef {import('./markup.js').Element} Tree */

/**
 * Puts `trees` in `parent`, leaving alone the children that would come out the same: the
 * keyboard's focus and a screen reader's place stay where they are.
 * @param {Element} parent
 */
function patcher(parent) {
  /** @type {string[]} */
  let before = [];
  /** @param {Tree[]} trees */
  return (trees) => {
    const after = trees.map(toHtml);
    trees.forEach((tree, i) => {
      if (after[i] === before[i] && parent.children[i]) return;
      const node = toNode(tree);
      const old = parent.children[i];
      if (old) old.replaceWith(node);
      else parent.append(node);
    });
    while (parent.children.length > trees.length) parent.lastElementChild?.remove();
    before = after;
  };
}

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
      for (const radio of radios()) radio.checked = radio.value === flown;
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
