// A line beside what was just done: whether the course has it. The course's strip may be out of
// view by then, on a phone most of all.
import { onLastClick } from './dom.js';
import { el, toNode } from './markup.js';
import { say } from './text.js';

/**
 * Fills the page's places for that line.
 * @param {() => void} retry
 */
export function mountHere(retry) {
  const places = [...document.querySelectorAll('.course-here')].map((place) => {
    const words = /** @type {HTMLElement} */ (toNode(el('span', { tabindex: '-1' })));
    const button = /** @type {HTMLElement} */ (toNode(el('button', { type: 'button', class: 'quiet-button' }, say('page.course.retry'))));
    onLastClick(button, retry, words);
    place.append(words, ' ', button);
    return { place: /** @type {HTMLElement} */ (place), words, button };
  });
  /** @param {string} text Nothing: no line. @param {boolean} again Whether it can be tried again. */
  return function show(text, again) {
    for (const { place, words, button } of places) {
      place.hidden = text === '';
      words.textContent = text;
      button.hidden = !again;
    }
  };
}
