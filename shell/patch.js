// Puts element trees into the page and touches only what differs.
import { toHtml, toNode } from './markup.js';

/** @typedef {import('./markup.js').Element} Tree */

/**
 * Puts `trees` in `parent`, leaving alone the children that would come out the same: the
 * keyboard's focus and a screen reader's place stay where they are.
 * @param {Element} parent
 */
export function patcher(parent) {
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
