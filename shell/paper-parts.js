// Parts that question sheet, key and handout share.
import build from './build.js';
import { el } from './markup.js';
import { say } from './text.js';

/** Title, facts, caution. @param {string} title @param {string[]} facts */
export const paperHead = (title, facts) => el('div', {},
  el('h2', {}, title),
  el('p', { class: 'paper-facts' }, ...[...facts, say('page.paper.build', { build })].map((fact) => el('span', {}, fact))),
  el('p', { class: 'paper-caution' }, say('page.caution')));

/** @param {string} words @param {string} address */
export const paperLink = (words, address) => el('p', { class: 'paper-link' }, `${words} `, el('span', {}, address));

/** The page's own address with another hash and nothing else behind it. @param {string} hash */
export function pageAddress(hash) {
  const url = new URL(location.href);
  url.search = '';
  url.hash = hash;
  return url.href;
}
