// The modes of the page: lesson, explore, practice, hand flying, today's card. One at a time,
// chosen by a row of links, so that back and forward go through them. The picture is all theirs.
import { addressKey, addressOf } from './address.js';
import { byId } from './dom.js';

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
 * @param {Record<string, Mode>} modes By name; each but the first has a section in index.html.
 * @param {() => void} [onOpened] Another mode was opened.
 */
export function mountModes(hub, modes, onOpened = () => {}) {
  let opened = FIRST;
  const names = [FIRST, ...Object.keys(modes)];
  /** @type {Map<string, HTMLAnchorElement>} */
  const links = new Map(names.map((name) => [name, byId(`to-${name}`, HTMLAnchorElement)]));

  /** @param {string} name */
  const addressFor = (name) => addressOf(hub.link(), name === FIRST ? {} : { mode: name });

  /** Opens the mode that the address names; one that is not there opens the first. */
  function open() {
    const asked = addressKey('mode') ?? FIRST;
    const name = names.includes(asked) ? asked : FIRST;
    if (name === opened) {
      modes[name]?.address?.();
      return;
    }
    modes[opened]?.close();
    opened = name;
    document.body.dataset.mode = name;
    for (const other of names) {
      if (other === name) links.get(other)?.setAttribute('aria-current', 'page');
      else links.get(other)?.removeAttribute('aria-current');
      if (other !== FIRST) byId(`mode-${other}`, HTMLElement).hidden = other !== name;
    }
    modes[name]?.open();
    modes[name]?.scenario?.(hub.session.report());
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
      const { hash } = new URL(addressFor(name), location.href);
      // Even an empty one: an address without a hash would load the page again.
      location.hash = hash;
      byId('column', HTMLElement).focus({ preventScroll: true });
    });
  }
  hub.add({
    scenario: (report) => modes[opened]?.scenario?.(report),
    clock: (live) => modes[opened]?.clock?.(live),
  });
  return {
    open,
    opened: () => opened,
    /** Opens a mode as its link does, but leaves nothing to go back through; false: there is none of that name. @param {string} name */
    goTo(name) {
      if (!names.includes(name)) return false;
      // As above: even an empty hash.
      location.replace(new URL(addressFor(name), location.href).hash || '#');
      return true;
    },
    /** What the open mode adds to the address. @returns {Record<string, string>} */
    keys: () => (opened === FIRST ? {} : { mode: opened, ...modes[opened].keys?.() }),
  };
}
