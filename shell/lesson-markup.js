// Parts of a lesson's step as element trees: the page that is read and the mode that is flown
// are made of the same.
import { fill } from './lesson-values.js';
import { el } from './markup.js';

/** @typedef {import('./markup.js').Child} Child */
/** @typedef {import('./outcome-markup.js').Say} Say */
/** @typedef {import('./lesson-steps.js').Prediction} Prediction */
/** @typedef {import('./lesson-values.js').Reports} Reports */

/** Words between asterisks stand out. @param {string} words @returns {Child[]} */
export const rich = (words) => words.split(/\*([^*]+)\*/)
  .map((piece, i) => (i % 2 ? el('strong', {}, piece) : piece)).filter((piece) => piece !== '');

/** @typedef {ReturnType<typeof writer>} Writer */

/** Writes the texts of one step. @param {Reports} reports @param {Say} say */
export function writer(reports, say) {
  /** @param {string} words */
  const filled = (words) => fill(words, reports, say);
  return {
    filled,
    /** @param {string[]} texts */
    paragraphs: (texts) => texts.map((text) => el('p', {}, ...rich(filled(text)))),
    /** @param {string[]} texts */
    items: (texts) => texts.map((text) => el('li', {}, ...rich(filled(text)))),
  };
}

/**
 * The options after the answer: which one is right and which one was chosen.
 * @param {string[]} texts Filled.
 * @param {number} right
 * @param {number | null} chosen
 * @param {Say} say
 */
export const answered = (texts, right, chosen, say) => el('ul', { class: 'lesson-answers' },
  ...texts.map((text, i) => {
    const kinds = [i === right ? 'flown' : '', i === chosen ? 'yours' : ''].filter(Boolean);
    // One note is enough: that it is right stands in the sentence under it.
    const note = kinds.at(-1);
    return el('li', { class: kinds.join(' ') || undefined }, el('span', {}, text),
      ...(note ? [el('span', { class: 'note' }, say(`page.lesson.note.${note}`))] : []));
  }));
