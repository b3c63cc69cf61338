// Questions on paper: the sheet that a class code gives, and its key. Questions, answers and
// sums are the tutor's.
import { byId, write } from './dom.js';
import { el, toNode } from './markup.js';
import { pageAddress, paperSheet } from './paper-parts.js';
import { printOnPaper } from './paper.js';
import { say } from './text.js';

/** @typedef {import('./types').TutorSheet} TutorSheet */
/** @typedef {import('./types').SheetItem} SheetItem */
/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {'none' | 'right' | 'worked'} KeyKind */

/** Questions of a check. */
const OF_CHECK = 12;

/** @param {string} label */
const tickBox = (label) => el('span', {}, el('span', { class: 'paper-box' }), label);

/** Where the answer is written. @param {SheetItem} item */
function answerLine({ kind, choices, tolerance_text }) {
  if (kind === 'choice') return el('p', { class: 'paper-answer' }, ...choices.map(({ label }) => tickBox(label)));
  const label = say(kind === 'seconds' ? 'page.paper.answer.seconds' : 'page.paper.answer');
  const sides = kind === 'correction' || kind === 'hold'
    ? ['left', 'right'].map((side) => tickBox(say(`page.practice.${kind}.${side}`))) : [];
  return el('p', { class: 'paper-answer' },
    el('span', {}, label, el('span', { class: 'paper-line' }), ` ${say(`page.practice.unit.${kind}`)}`), ...sides,
    ...(tolerance_text ? [el('span', { class: 'paper-note' }, say('page.paper.right', { tolerance: tolerance_text }))] : []));
}

/** @param {SheetItem} item */
const question = (item) => el('li', {},
  el('p', {}, item.question), el('p', {}, el('strong', {}, item.ask)),
  el('div', { class: item.kind === 'choice' ? 'paper-room small' : 'paper-room' }), answerLine(item));

/** @param {SheetItem} item @param {boolean} worked */
const answer = (item, worked) => el('li', {},
  el('p', {}, el('strong', {}, item.right_text), item.tolerance_text ? ` (${item.tolerance_text})` : ''),
  el('p', { class: 'paper-note' }, item.ask),
  ...(worked ? [el('ol', { class: 'paper-steps' }, ...item.steps.map((step) => el('li', {}, step.worked)))] : []));

/**
 * The sheet, and behind it the key where one is wanted.
 * @param {TutorSheet} sheet @param {KeyKind} key
 * @param {import('./paper-parts.js').PaperLink} link
 * @returns {Tree[]}
 */
export function sheetTrees({ set, code, items }, key, link) {
  const facts = [say('page.paper.set', set), say('page.paper.code', { code: code ?? '' })];
  const questions = paperSheet('paper-questions', { title: say('page.paper.sheet'), facts, link },
    [el('ol', { class: 'paper-list' }, ...items.map(question))]);
  if (key === 'none') return [questions];
  return [questions, paperSheet('paper-key', { title: say('page.paper.key.of'), facts },
    [el('ol', { class: 'paper-list' }, ...items.map((item) => answer(item, key === 'worked')))])];
}

/** What the check asks of a sheet of so many. @param {number} count */
function linkWords(count) {
  if (count === OF_CHECK) return say('page.paper.link');
  return count > OF_CHECK ? say('page.paper.link.first', { n: OF_CHECK }) : say('page.paper.link.part', { n: OF_CHECK - count });
}

/**
 * @param {import('./types').Tutor} tutor
 * @param {{ready: () => Promise<void>, code: () => string, keys: () => Record<string, string>, has_address: () => boolean}} chosen
 *   `keys`: what the address says of the set; a set from a file of the person's has no address.
 */
export function mountSheet(tutor, chosen) {
  const count = byId('sheet-count', HTMLSelectElement);
  const key = byId('sheet-key', HTMLSelectElement);
  const problem = byId('sheet-problem', HTMLElement);
  byId('sheet-print', HTMLButtonElement).addEventListener('click', async () => {
    await chosen.ready();
    const sheet = tutor.sheet({ code: chosen.code(), count: Number(count.value) });
    problem.hidden = sheet.problems.length === 0;
    write(problem, sheet.problems.map(({ message }) => message).join(' '));
    if (sheet.problems.length) return;
    const hash = new URLSearchParams({ mode: 'practice', ...chosen.keys(), code: sheet.code ?? '', check: '1' });
    const link = chosen.has_address()
      ? { words: linkWords(sheet.items.length), address: pageAddress(hash.toString()) }
      : { words: say('page.paper.link.own'), address: pageAddress('mode=practice') };
    printOnPaper(sheetTrees(sheet, /** @type {KeyKind} */ (key.value), link).map(toNode));
  });
}
