// The view "Clearance": one that was given, read step by step; and the present hold as one.
import { announce } from './announce.js';
import { copyText } from './copy.js';
import { byId, write } from './dom.js';
import { el } from './markup.js';
import { paragraphs, part, steps, useLink } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').ReadClearance} ReadClearance */
/** @typedef {NonNullable<import('./types').Evaluation['clearance']>} Composed */

/** @param {ReadClearance | null} read */
const contradictions = (read) => (read?.contradictions ?? []).map((text) =>
  el('p', { class: 'contradiction' }, el('strong', {}, say('page.clearance.contradiction')), ` ${text}`));

/** What is missing or was not understood, where no step says so already. */
/** @param {ReadClearance | null} read */
const doubts = (read) => paragraphs((read?.problems ?? [])
  .filter((problem) => !read?.steps.some((step) => step.startsWith(problem.replace(/\.$/, '')))));

/** @param {Composed} clearance */
const composed = ({ text, spoken, published }) => [
  ...(text ? [el('p', { class: 'said' }, text)] : []),
  ...[['spoken', spoken], ['published', published]].filter(([, words]) => words)
    .map(([kind, words]) => el('p', { class: 'said-also' },
      el('span', { class: 'field-label' }, say(`page.clearance.${kind}`)), words)),
];

/**
 * @param {import('./hub.js').Hub} hub
 * @param {import('./types').Core} core
 * @returns {import('./panels.js').Panel}
 */
export function clearancePanel(hub, core) {
  const { session } = hub;
  const said = byId('clearance-said', HTMLTextAreaElement);
  const use = byId('clearance-use', HTMLButtonElement);
  const showContradictions = part('clearance-contradictions');
  const showSteps = part('clearance-steps');
  const showDoubts = part('clearance-problems');
  const showComposed = part('clearance-composed');
  const showWhy = part('clearance-why');
  const showStation = part('station-words');
  let link = '';
  let text = '';

  function read() {
    const clearance = said.value.trim() ? core.readClearance?.(said.value, session.report().fields.inbound) ?? null : null;
    link = clearance?.link ?? '';
    showContradictions(contradictions(clearance));
    // What contradicts itself stands above them.
    showSteps(steps(clearance?.steps.filter((step) => !clearance.contradictions.includes(step))));
    showDoubts(doubts(clearance));
    use.hidden = !link;
    write(use, say(clearance?.contradictions.length ? 'page.clearance.use_rest' : 'page.clearance.use'));
  }

  said.addEventListener('input', read);
  use.addEventListener('click', () => useLink(hub, link, 'page.clearance.used'));
  byId('clearance-copy', HTMLButtonElement).addEventListener('click', async () => {
    announce(say(await copyText(text) ? 'page.copied' : 'page.copy.failed'));
  });

  return {
    scenario(report) {
      text = report.clearance?.text ?? '';
      showComposed(report.clearance ? composed(report.clearance) : []);
      showWhy(steps(report.clearance?.steps));
      showStation(paragraphs(report.station?.words));
      // A published hold is held against the inbound course that is set.
      read();
    },
  };
}
