// What is printed and never seen on the screen: question sheets and handouts. paper.css hides
// the rest of the page on paper while it stands there.
import { byId } from './dom.js';

/** Puts sheets in place of the page, for one print. @param {Node[]} sheets */
export function layPaper(sheets) {
  const paper = byId('paper', HTMLElement);
  paper.replaceChildren(...sheets);
  paper.hidden = false;
  document.body.toggleAttribute('data-paper', true);
  // Some browsers print later than print() returns: what they print goes when it is done.
  window.addEventListener('afterprint', clear, { once: true });
}

/** Whether sheets are there to be printed. */
export const paperLies = () => document.body.hasAttribute('data-paper');

/** @param {Node[]} sheets */
export function printOnPaper(sheets) {
  layPaper(sheets);
  window.print();
}

function clear() {
  document.body.toggleAttribute('data-paper', false);
  const paper = byId('paper', HTMLElement);
  paper.hidden = true;
  paper.replaceChildren();
}
