// The view "Clearance": one that was given, read step by step; and the present hold as one.
import { announce } from './announce.js';
import { copyText } from './copy.js';
import { byId } from './dom.js';
import { el } from './markup.js';
import { paragraphs, part, steps, useLink } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').ReadClearance} ReadClearance */
/** @typedef {NonNullable<import('./types').Evaluation['clearance']>} Composed */

/** @param {ReadClearance | null} read */
const contradictions = (read) => (read?.contradictions ?? []).map((text) =>
  el('p', { class: 'contradiction' }, el('strong', {}, say('page.clearance.contradiction')), ` ${text}`));

/** @param {ReadClearance | null} read */
function doubts(read) {
  const unread = read?.unread ?? [];
  return paragraphs(read?.problems,
    unread.length ? say('page.clearance.unread', { words: unread.map((word) => `“${word}”`).join(', ') }) : null);
}

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
    const clearance = said.value.trim() ? core.readClearance?.(said.value) ?? null : null;
    link = clearance?.link ?? '';
    showContradictions(contradictions(clearance));
    showSteps(steps(clearance?.steps));
    showDoubts(doubts(clearance));
    use.hidden = !link;
  }

  said.addEventListener('input', read);
  use.addEventListener('click', () => {
    useLink(hub, link);
    announce(say('page.clearance.used'));
  });
  byId('clearance-copy', HTMLButtonElement).addEventListener('click', async () => {
    announce(say(await copyText(text) ? 'page.copied' : 'page.copy.failed'));
  });

  return {
    scenario(report) {
      text = report.clearance?.text ?? '';
      showComposed(report.clearance ? composed(report.clearance) : []);
      showWhy(steps(report.clearance?.steps));
      showStation(paragraphs(report.station?.words));
    },
  };
}
