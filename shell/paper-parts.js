// Parts that question sheet, key and handout share.
import { handedOn, rulesInQuery } from './address.js';
import build from './build.js';
import { el } from './markup.js';
import { qrTree } from './qr.js';
import { say } from './text.js';

/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {{words: string, address: string}} PaperLink */

/**
 * One sheet of its own: title, facts and a link above, its body, and on every page of it a foot
 * that says what it belongs to.
 * @param {string} name @param {{title: string, facts: string[], link?: PaperLink}} head @param {Tree[]} body
 */
export const paperSheet = (name, { title, facts, link }, body) => el('section', { class: `paper-sheet ${name}` },
  el('div', { class: 'paper-body' },
    el('header', { class: 'paper-head' },
      el('div', {}, el('h2', {}, title), factLine(facts),
        ...(link ? [el('p', { class: 'paper-link' }, `${link.words} `, el('span', {}, link.address))] : [])),
      ...(link ? qrTree(link.address, say('page.paper.qr')) : [])),
    ...body),
  el('footer', { class: 'paper-foot' },
    el('p', { class: 'paper-caution' }, say('page.caution')),
    factLine([title, ...facts, say('page.paper.build', { build })])));

/** @param {string[]} facts */
const factLine = (facts) => el('p', { class: 'paper-facts' }, ...facts.map((fact) => el('span', {}, fact)));

/** The page's own address with another hash, and what an instructor hides and fixes; nothing else. @param {string} hash */
export function pageAddress(hash) {
  const url = new URL(location.href);
  url.search = rulesInQuery();
  url.hash = handedOn(`#${hash}`);
  return url.href;
}
