// The modes of the page: lesson, explore, practice, hand flying, today's card. One at a time,
// chosen by a row of links, so that back and forward go through them. The picture is all theirs.
// A mode that was never opened is not fetched.
import { addressKey, addressOf } from './address.js';
import { byId } from './dom.js';
import { guarded, opening } from './guard.js';
import { busy, eachOnce, sayMissing } from './later.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').Live} Live */

/**
 * @typedef {object} Mode What one mode does while it is open.
 * @property {() => void | Promise<void>} open
 * @property {() => void} close
 * @property {() => void} [address] The address changed from without, and names it still.
 * @property {() => Record<string, string>} [keys] What it adds to the address.
 * @property {(report: Evaluation) => void} [scenario]
 * @property {(live: Live) => void} [clock]
 */

/** The mode that needs no saying. */
const FIRST = 'explore';

/**
 * @param {Hub} hub
 * @param {Record<string, () => Promise<Mode>>} modes By name, but for the first; each has a section
 *   in index.html.
 * @param {() => void} [onOpened] Another mode was opened.
 */
export function mountModes(hub, modes, onOpened = () => {}) {
  let opened = FIRST;
  /** Opened once it has come. */
  let wanted = FIRST;
  const names = [FIRST, ...Object.keys(modes)];
  const makers = eachOnce(modes);
  /** Those that have come. @type {Map<string, Mode>} */
  const come = new Map([[FIRST, { open() {}, close() {} }]]);
  /** @type {Map<string, HTMLAnchorElement>} */
  const links = new Map(names.map((name) => [name, byId(`to-${name}`, HTMLAnchorElement)]));

  /** As its link calls it. @param {string} name */
  const nameOf = (name) => links.get(name)?.textContent ?? name;
  /** @param {string} name */
  const addressFor = (name) => addressOf(hub.link(), name === FIRST ? {} : { mode: name });
  /** Even an empty hash: an address without one would load the page again. @param {string} name */
  const hashFor = (name) => new URL(addressFor(name), location.href).hash || '#';

  /** @param {string} name @param {HTMLAnchorElement} link */
  async function fetched(name, link) {
    busy(link, true);
    try {
      come.set(name, await makers[name]());
    } catch (error) {
      sayMissing(nameOf(name), error);
      // The address names what is open.
      if (wanted === name) location.replace(hashFor(opened));
    }
    busy(link, false);
    // Meanwhile the address may have led elsewhere.
    return come.has(name) && wanted === name;
  }

  /** Opens the mode that the address names, at once where it has come before; one that is not there opens the first. */
  async function open() {
    const asked = addressKey('mode') ?? FIRST;
    const name = names.includes(asked) ? asked : FIRST;
    const link = links.get(name);
    wanted = name;
    if (name === opened) {
      guarded(nameOf(name), () => come.get(name)?.address?.());
      return;
    }
    if (!come.has(name) && !(link && await fetched(name, link))) return;
    // Asked for twice on its way, and opened by the first.
    if (name === opened) return;
    opening(nameOf(name));
    guarded(nameOf(opened), () => come.get(opened)?.close());
    opened = name;
    document.body.dataset.mode = name;
    for (const other of names) {
      if (other === name) links.get(other)?.setAttribute('aria-current', 'page');
      else links.get(other)?.removeAttribute('aria-current');
      if (other !== FIRST) byId(`mode-${other}`, HTMLElement).hidden = other !== name;
    }
    const mode = come.get(name);
    guarded(nameOf(name), () => mode?.open());
    guarded(nameOf(name), () => mode?.scenario?.(hub.session.report()));
    onOpened();
  }

  for (const [name, link] of links) {
    // Where a link leads depends on the scene that is left.
    for (const about of ['pointerdown', 'focus']) {
      link.addEventListener(about, () => { link.href = addressFor(name); });
    }
    link.addEventListener('click', (event) => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      location.hash = hashFor(name);
      byId('column', HTMLElement).focus({ preventScroll: true });
    });
  }
  hub.add({
    name: () => nameOf(opened),
    scenario: (report) => come.get(opened)?.scenario?.(report),
    clock: (live) => come.get(opened)?.clock?.(live),
  });
  return {
    open,
    opened: () => opened,
    /** Opens a mode as its link does, but leaves nothing to go back through; false: there is none of that name. @param {string} name */
    goTo(name) {
      if (!names.includes(name)) return false;
      location.replace(hashFor(name));
      return true;
    },
    /** What the open mode adds to the address. @returns {Record<string, string>} */
    keys: () => (opened === FIRST ? {} : { mode: opened, ...come.get(opened)?.keys?.() }),
  };
}
