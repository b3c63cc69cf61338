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

/**
 * A click that may take its own button away: a button that is gone keeps no focus.
 * @param {HTMLElement} button @param {() => void} act @param {HTMLElement} instead Takes the focus then.
 */
export function onLastClick(button, act, instead) {
  button.addEventListener('click', () => {
    act();
    if (button.hidden) instead.focus();
  });
}

/**
 * What a form's button, or Enter in one of its fields, does. By the button's click, which comes of
 * both: a sandboxed frame without allow-forms lets no form submit.
 * @param {HTMLFormElement} form @param {() => unknown} act
 */
export function onSubmit(form, act) {
  const take = (/** @type {Event} */ event) => {
    event.preventDefault();
    act();
  };
  form.addEventListener('submit', take);
  form.addEventListener('click', (event) => {
    if (event.target instanceof Element && event.target.closest('button[type="submit"]')) take(event);
  });
}

/** @param {string} text An SVG of the core's. @returns {Element} */
export const svgNode = (text) =>
  document.importNode(new DOMParser().parseFromString(text, 'image/svg+xml').documentElement, true);
