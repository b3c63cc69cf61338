// Fills index.html at build time with the catalogue's words and the default scene as the
// core computes it, so that the first paint needs neither script nor WebAssembly.
// Not part of the site: the build imports it in Node.
import { fieldMarkup } from './field-markup.js';
import { FIELDS } from './fields.js';
import { el, escapeHtml, toHtml } from './markup.js';
import { happens, morePlans, plans, sum } from './outcome-markup.js';

/** Sizes in CSS pixels near those of the wide page and of a phone; the style sheet shows one. */
const PICTURES = { wide: { width: 880, height: 640 }, narrow: { width: 390, height: 350 } };

/**
 * @param {string} template
 * @param {Record<string, string>} words
 * @param {import('./types').Core} core
 * @returns {string} The page. Throws on a missing word or a placeholder it does not know.
 */
export function prerender(template, words, core) {
  /** @type {import('./outcome-markup.js').Say} */
  const say = (key, values = {}) => {
    if (!Object.hasOwn(words, key)) throw new Error(`no word for ${key}`);
    return words[key].replace(/\{(\w+)\}/g, (whole, name) => String(values[name] ?? whole));
  };
  const report = core.evaluate('');
  const html = template
    .replace(/\{\{word:([\w.-]+)\}\}/g, (_, key) => escapeHtml(say(key)))
    .replace(/<!-- (default|field|borrow|kind|layer)[-:]([\w-]+) -->/g, (_, kind, name) => {
      if (kind === 'field') return toHtml(fieldMarkup(fieldNamed(name), report.fields, say));
      if (kind === 'borrow') return toHtml(el('div', { class: 'borrowed', 'data-borrow': fieldNamed(name).id }));
      if (kind === 'layer') return toHtml(layer(name, say));
      if (kind === 'kind') return toHtml(reportKind(name, say));
      return defaultPart(name, report, say, core);
    });
  const left = /\{\{.*?\}\}|<!--.*?-->/.exec(html);
  if (left) throw new Error(`placeholder left over: ${left[0]}`);
  return html;
}

/** @param {string} id */
function fieldNamed(id) {
  const field = FIELDS.find((f) => f.id === id);
  if (!field) throw new Error(`no field ${id}`);
  return field;
}

/** @param {string} name @param {import('./outcome-markup.js').Say} say */
const layer = (name, say) => el('label', { class: 'check' },
  el('input', { type: 'checkbox', name: 'layer', value: name }),
  el('span', {}, say(`page.layer.${name}`)));

/** A kind of wind report, and what its direction refers to. */
/** @param {string} name @param {import('./outcome-markup.js').Say} say */
const reportKind = (name, say) => el('label', { class: 'kind' },
  el('input', { type: 'radio', name: 'wind-kind', value: name, checked: name === 'auto' }),
  el('span', {}, say(`page.wind.kind.${name}`)),
  el('span', { class: 'kind-ref' }, say(`page.wind.kind.${name}.ref`)));

/**
 * @param {string} name
 * @param {import('./types').Evaluation} report
 * @param {import('./outcome-markup.js').Say} say
 * @param {import('./types').Core} core
 */
function defaultPart(name, report, say, core) {
  switch (name) {
    case 'picture': return Object.entries(PICTURES).map(([kind, size]) => picture(kind, size, core)).join('');
    case 'summary': return escapeHtml(report.summary);
    case 'happens': return happens(report).map(toHtml).join('');
    case 'sum': return sum(report).map(toHtml).join('');
    case 'plans-more': return morePlans(report, say).map(toHtml).join('');
    case 'plans': return plans(report, say).map(toHtml).join('');
    default: throw new Error(`no default part ${name}`);
  }
}

/** @param {string} kind @param {{width: number, height: number}} size @param {import('./types').Core} core */
function picture(kind, size, core) {
  // The page names what the picture stands in; a title would also pop up under the pointer.
  const svg = core.svg('', { ...size, theme: 'page' })
    .replace(/<title>[^<]*<\/title>\s*/, '')
    .replace(/^[^<]*<svg /, '<svg aria-hidden="true" ');
  return `<div class="still still-${kind}">${svg}</div>`;
}
