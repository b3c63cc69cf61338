// In "Teach": the lines of HTML that show this scene in another page, with what is hidden and fixed.
import { copyText } from './copy.js';
import { byId, onSubmit, write } from './dom.js';
import { GROUPS, PARTS } from './instructor.js';
import { el, escapeHtml, toNode } from './markup.js';
import { originOf } from './origin.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */

const ALLOWED = 'fullscreen; clipboard-write; web-share';
/** Heights of a frame that can be used, and the one for any other, CSS pixels. */
const HEIGHTS = { least: 200, most: 4000, usual: 760 };

/**
 * @typedef {object} Wanted
 * @property {string} title @property {number} height @property {string} link @property {string} mode
 * @property {string[]} hide @property {string[]} lock @property {string | null} host
 */

/** @param {string} page Address of this page. @param {Wanted} wanted */
export function embedAddress(page, { link, mode, hide, lock, host }) {
  const url = new URL(page);
  url.search = ['embed=1', hide.length ? `hide=${hide.join(',')}` : '', lock.length ? `lock=${lock.join(',')}` : '', host ? `host=${host}` : '']
    .filter(Boolean).join('&');
  url.hash = [link, mode && `mode=${mode}`].filter(Boolean).join('&');
  return url.href;
}

/** @param {string} address @param {Wanted} wanted */
export const snippetOf = (address, { title, height }) =>
  `<iframe src="${escapeHtml(address)}" title="${escapeHtml(title)}" width="100%" height="${height}"\n`
  + ` style="border:0" allow="${ALLOWED}" loading="lazy"></iframe>`;

/** @param {string} group @param {string[]} names */
const boxes = (group, names) => names.map((name) => toNode(el('label', { class: 'check' },
  el('input', { type: 'checkbox', name: `embed-${group}`, value: name }), el('span', {}, say(`page.${group}.${name}`)))));

/** @param {Hub} hub */
export function mountSnippet(hub) {
  // No other page can show a file of this disk.
  if (location.protocol === 'file:') {
    byId('teach-embed', HTMLElement).hidden = true;
    return;
  }
  const form = byId('embed-form', HTMLFormElement);
  const text = byId('embed-text', HTMLTextAreaElement);
  const address = byId('embed-address', HTMLAnchorElement);
  const problem = byId('embed-problem', HTMLElement);
  const said = byId('embed-said', HTMLElement);
  const host = byId('embed-host', HTMLInputElement);
  byId('embed-hide', HTMLElement).append(...boxes('hide', PARTS));
  byId('embed-lock', HTMLElement).append(...boxes('lock', Object.keys(GROUPS)));

  function show() {
    const chosen = new FormData(form);
    const height = Math.round(Number(byId('embed-height', HTMLInputElement).value));
    const given = host.value.trim();
    /** @type {Wanted} */
    const wanted = {
      title: byId('embed-title', HTMLInputElement).value.trim() || say('page.title'),
      height: height >= HEIGHTS.least && height <= HEIGHTS.most ? height : HEIGHTS.usual,
      link: hub.link(), mode: byId('embed-mode', HTMLSelectElement).value, host: originOf(given),
      hide: chosen.getAll('embed-hide').map(String), lock: chosen.getAll('embed-lock').map(String),
    };
    const wrong = given !== '' && wanted.host === null;
    problem.hidden = !wrong;
    write(problem, wrong ? say('page.embed.host.bad') : '');
    const leads = embedAddress(location.href, wanted);
    text.value = snippetOf(leads, wanted);
    address.href = leads;
    write(address, leads);
    write(said, '');
  }

  form.addEventListener('input', show);
  onSubmit(form, async () => {
    const copied = await copyText(text.value);
    write(said, say(copied ? 'page.copied' : 'page.embed.by_hand'));
    if (copied) return;
    text.focus();
    text.select();
  });
  hub.add({ settled: show });
  show();
}
