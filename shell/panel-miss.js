// The view "The miss": what was seen in the air, the wind that explains it, the next lap; and
// common practice beside the exact plan.
import { byId } from './dom.js';
import { direction, whole } from './format.js';
import { el } from './markup.js';
import { paragraphs, part, useLink } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').Inferred} Inferred */
/** @typedef {import('./types').Practice} Practice */

/** How sure it is stands in the sentences under it. @param {Inferred['winds'][number]} wind */
const windWords = (wind) => say('page.wind.value', { from: direction(wind.from_deg), kt: whole(wind.speed_kt) });

/** An inferred wind is magnetic, whatever the report's was. @param {Inferred['winds'][number]} wind */
const windLink = (wind) =>
  `wind=${direction(wind.from_deg)}/${wind.speed_kt.toFixed(1)}&windref=magnetic`;

/** @param {Inferred} inferred */
const winds = (inferred) => inferred.winds.map((wind) => el('p', { class: 'choice' },
  el('strong', {}, windWords(wind)),
  el('button', { type: 'button', class: 'quiet-button', 'data-link': windLink(wind),
    'aria-label': say('page.miss.use_this', { wind: windWords(wind) }) }, say('page.wind.use'))));

/** Its name and how good it is today; the rest opens. @param {Practice} item */
const practice = (item) => el('details', { class: 'practice-item', 'data-id': item.id },
  el('summary', {}, el('span', {}, item.title),
    el('span', { class: item.good ? 'verdict good' : 'verdict' }, say(`page.miss.practice.${item.good ? 'good' : 'poor'}`))),
  el('p', { class: 'hint' }, item.says),
  el('dl', { class: 'beside' },
    ...[['today', item.today], ['exact', item.exact]].flatMap(([name, text]) => [
      el('dt', {}, say(`page.miss.practice.${name}`)), el('dd', {}, text)])),
  el('p', {}, item.words));

/**
 * Writes the rules anew and leaves open what was open.
 * @param {HTMLElement} place @param {() => void} write
 */
function keepingOpen(place, write) {
  const all = () => [...place.querySelectorAll('details')];
  const open = new Set(all().filter((item) => item.open).map((item) => item.dataset.id));
  write();
  for (const item of all()) item.open = open.has(item.dataset.id);
}

/**
 * @param {import('./hub.js').Hub} hub
 * @returns {import('./panels.js').Panel}
 */
export function missPanel(hub) {
  const showWinds = part('miss-winds');
  const showTells = part('miss-tells');
  const showAdvice = part('miss-advice');
  const showPractice = part('practice');
  const place = byId('practice', HTMLElement);
  byId('miss-winds', HTMLElement).addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest('button') : null;
    if (button) useLink(hub, button.getAttribute('data-link') ?? '', 'page.wind.used');
  });
  return {
    scenario({ inferred, practice: items }) {
      showWinds(inferred?.winds ? winds(inferred) : []);
      showTells(paragraphs(inferred?.why, inferred?.tells));
      showAdvice(paragraphs(inferred?.advice));
      keepingOpen(place, () => showPractice((items ?? []).map(practice)));
    },
  };
}
