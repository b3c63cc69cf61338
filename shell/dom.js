// Finding elements that the page is known to have.

/**
 * The element with this id, of this kind; throws where index.html and the modules disagree.
 * @template {Element} T
 * @param {string} id
 * @param {new () => T} kind
 * @returns {T}
 */
export function byId(id, kind) {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`index.html has no ${kind.name} #${id}`);
  return found;
}

/** Writes only what differs: an unchanged text is no work for a screen reader. */
/** @param {Element} element @param {string} text */
export function write(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** @param {string} text An SVG of the core's. @returns {Element} */
export const svgNode = (text) =>
  document.importNode(new DOMParser().parseFromString(text, 'image/svg+xml').documentElement, true);
