// The view "Wind": a report as it is written or said, made into the wind that is flown in.
import { byId } from './dom.js';
import { direction, whole } from './format.js';
import { el } from './markup.js';
import { paragraphs, part, steps, useLink } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').ReadWindReport} ReadWindReport */
/** @typedef {import('./types').WindPeriod} WindPeriod */

/** The link of one period of a forecast, in the words of the report itself. */
/** @param {WindPeriod} period @param {ReadWindReport} report */
function periodLink(period, report) {
  if (period.link !== undefined) return period.link;
  if (period.from_deg === null || period.speed_kt === null || !report.ref) return '';
  return `wind=${Math.round(period.from_deg)}/${Math.round(period.speed_kt)}&windref=${report.ref}`;
}

/** @param {WindPeriod} period */
function periodWords({ label, from_deg, speed_kt, gust_kt }) {
  const wind = speed_kt === null ? '\u2013' : say('page.wind.value', { from: direction(from_deg), kt: whole(speed_kt) });
  const gust = gust_kt === null || gust_kt === undefined ? '' : say('page.wind.gust', { kt: whole(gust_kt) });
  return `${label}: ${wind}${gust}`;
}

/** @param {ReadWindReport | null} report */
const periods = (report) => (report?.periods ?? []).map((period, i) => {
  const link = report ? periodLink(period, report) : '';
  return el('p', { class: 'choice' }, el('span', {}, periodWords(period)),
    ...(link ? [el('button', { type: 'button', class: 'quiet-button', 'data-link': link,
      'aria-label': say('page.wind.use_period', { period: period.label || String(i + 1) }) }, say('page.wind.use_one'))] : []));
});

/**
 * @param {import('./hub.js').Hub} hub
 * @param {import('./types').Core} core
 * @returns {import('./panels.js').Panel}
 */
export function windPanel(hub, core) {
  const { session } = hub;
  const said = byId('wind-said', HTMLTextAreaElement);
  const use = byId('wind-use', HTMLButtonElement);
  const list = byId('wind-periods', HTMLElement);
  const kinds = /** @type {NodeListOf<HTMLInputElement>} */ (document.querySelectorAll('input[name="wind-kind"]'));
  const showWhy = part('wind-kind-why');
  const showSteps = part('wind-steps');
  const showProblems = part('wind-problems');
  const showPeriods = part('wind-periods');
  const showModel = part('wind-model');
  let link = '';

  function read() {
    const kind = [...kinds].find((radio) => radio.checked)?.value ?? 'auto';
    const facts = core.reportKinds?.().find((known) => known.kind === kind);
    showWhy(paragraphs(facts ? say('page.wind.why', { why: facts.why, source: facts.source }) : null));
    const report = said.value.trim() ? core.readWindReport?.(kind, said.value, session.link()) ?? null : null;
    link = report?.link ?? '';
    showSteps(steps(report?.steps));
    showProblems(paragraphs(report?.problems));
    showPeriods(periods(report));
    use.hidden = !link;
  }

  /** @param {string} chosen */
  function fly(chosen) {
    useLink(hub, chosen, 'page.wind.used');
  }

  said.addEventListener('input', read);
  for (const radio of kinds) radio.addEventListener('change', read);
  use.addEventListener('click', () => fly(link));
  list.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest('button') : null;
    if (button) fly(button.getAttribute('data-link') ?? '');
  });

  return {
    scenario(report) {
      showModel(paragraphs(report.wind_model));
      // The altitude and the variation are part of the reading.
      read();
    },
  };
}
