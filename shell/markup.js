// A few lines of element tree that become DOM nodes in the page and text at build time,
// so that the first paint and the live page come from the same functions.

/** @typedef {{tag: string, attrs: Record<string, string | boolean>, children: Child[]}} Element */
/** @typedef {Element | string} Child */

const SVG_TAGS = new Set(['svg', 'g', 'line', 'path', 'circle', 'text']);
const VOID_TAGS = new Set(['input']);

/**
 * @param {string} tag
 * @param {Record<string, string | boolean | undefined>} [attrs] true: bare attribute; false: none
 * @param {...Child} children
 * @returns {Element}
 */
export function el(tag, attrs = {}, ...children) {
  /** @type {Record<string, string | boolean>} */
  const given = {};
  for (const [name, value] of Object.entries(attrs)) {
    if (value !== undefined && value !== false) given[name] = value;
  }
  return { tag, attrs: given, children };
}

/** @param {Child} child @returns {Node} */
export function toNode(child) {
  if (typeof child === 'string') return document.createTextNode(child);
  const node = SVG_TAGS.has(child.tag)
    ? document.createElementNS('http://www.w3.org/2000/svg', child.tag)
    : document.createElement(child.tag);
  for (const [name, value] of Object.entries(child.attrs)) {
    node.setAttribute(name, value === true ? '' : String(value));
  }
  node.append(...child.children.map(toNode));
  return node;
}

/** @param {string} text */
export const escapeHtml = (text) =>
  text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c] ?? c);

/** @param {Child} child @returns {string} */
export function toHtml(child) {
  if (typeof child === 'string') return escapeHtml(child);
  const attrs = Object.entries(child.attrs)
    .map(([name, value]) => (value === true ? ` ${name}` : ` ${name}="${escapeHtml(String(value))}"`))
    .join('');
  const open = `<${child.tag}${attrs}>`;
  if (VOID_TAGS.has(child.tag)) return open;
  return `${open}${child.children.map(toHtml).join('')}</${child.tag}>`;
}
