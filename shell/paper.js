// What is printed and never seen on the screen: question sheets and handouts. paper.css hides
// the rest of the page on paper while it stands there.
import { byId } from './dom.js';
import { toNode } from './markup.js';

/** @typedef {import('./markup.js').Element} Tree */

/** Prints `trees` in place of the page. @param {Tree[]} trees @param {Node[]} [more] Behind the first tree. */
export function printOnPaper(trees, more = []) {
  const paper = byId('paper', HTMLElement);
  const [first, ...rest] = trees.map(toNode);
  paper.replaceChildren(...(first ? [first] : []), ...more, ...rest);
  paper.hidden = false;
  document.body.toggleAttribute('data-paper', true);
  // Some browsers print later than print() returns: what they print goes when it is done.
  window.addEventListener('afterprint', clear, { once: true });
  window.print();
}

function clear() {
  document.body.toggleAttribute('data-paper', false);
  const paper = byId('paper', HTMLElement);
  paper.hidden = true;
  paper.replaceChildren();
}
