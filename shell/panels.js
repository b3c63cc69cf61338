// The views of the right-hand column: one at a time, chosen by a row of tabs. A view that is
// not open is not worked out, and one that was never opened is not fetched.
import { byId } from './dom.js';
import { guarded, opening } from './guard.js';
import { busy, eachOnce, sayMissing } from './later.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').Live} Live */

/**
 * @typedef {object} Panel What one view shows while it is open.
 * @property {(report: Evaluation) => void} [scenario]
 * @property {(live: Live) => void} [clock]
 * @property {string[]} [layers] Layers of the picture that are on while it is open, where the
 *   core has them.
 */

const FIRST = 'plan';

/** Keys along the row: how far the choice moves, or to which end. @type {Map<string, number>} */
const MOVES = new Map([['ArrowRight', 1], ['ArrowDown', 1], ['ArrowLeft', -1], ['ArrowUp', -1],
  ['Home', -Infinity], ['End', Infinity]]);

/** Where each field that was ever lent may stand, its home first: it stands in the last. @type {WeakMap<HTMLElement, Comment[]>} */
const places = new WeakMap();

/** @param {HTMLElement} field */
function placesOf(field) {
  const known = places.get(field);
  if (known) return known;
  const home = document.createComment('');
  field.before(home);
  const its = [home];
  places.set(field, its);
  return its;
}

/** @param {HTMLElement} field */
function standInLast(field) {
  const last = placesOf(field).at(-1);
  if (last?.nextSibling !== field) last?.after(field);
}

/**
 * A field stands in the page once. A view that wants one of another view borrows it, and it goes
 * where it was when that view closes. What a mode has borrowed, a view gets when the mode closes.
 * @param {boolean} [of_view]
 */
export function createLending(of_view = false) {
  /** @type {{field: HTMLElement, mark: Comment}[]} */
  let lent = [];
  return {
    /** @param {HTMLElement} panel */
    lendTo(panel) {
      for (const place of panel.querySelectorAll('[data-borrow]')) {
        const field = byId(`field-${place.getAttribute('data-borrow')}`, HTMLElement);
        const mark = document.createComment('');
        const its = placesOf(field);
        its.splice(of_view ? 1 : its.length, 0, mark);
        place.append(mark);
        standInLast(field);
        lent.push({ field, mark });
      }
    },
    takeBack() {
      for (const { field, mark } of lent) {
        const its = placesOf(field);
        its.splice(its.indexOf(mark), 1);
        standInLast(field);
        mark.remove();
      }
      lent = [];
    },
  };
}

/**
 * @param {Hub} hub
 * @param {Record<string, () => Promise<Panel>>} panels By name, but for the first, which shows
 *   what the page shows anyway; each has a tab and a panel in index.html.
 * @param {() => void} onChoice Another view was chosen by hand.
 */
export function mountPanels(hub, panels, onChoice) {
  const { session } = hub;
  const column = byId('column', HTMLElement);
  const names = [FIRST, ...Object.keys(panels)];
  const makers = eachOnce(panels);
  const tabs = new Map(names.map((name) => [name, byId(`tab-${name}`, HTMLButtonElement)]));
  const lending = createLending(true);
  /** Those that have come. @type {Map<string, Panel>} */
  const come = new Map([[FIRST, {}]]);
  let opened = FIRST;
  /** Opened once it has come. */
  let wanted = FIRST;

  /** As its tab calls it. @param {string} name */
  const nameOf = (name) => tabs.get(name)?.textContent ?? name;

  /** @param {string} name @param {boolean} on */
  function switchLayers(name, on) {
    const known = session.layers();
    for (const layer of come.get(name)?.layers ?? []) {
      if (layer in known) hub.change(session.layer(layer, on));
    }
  }

  /** @param {string} name Of one that has come. */
  function show(name) {
    if (name === opened) return;
    opening(nameOf(name));
    switchLayers(opened, false);
    lending.takeBack();
    opened = name;
    column.dataset.view = name;
    for (const [other, tab] of tabs) {
      tab.setAttribute('aria-selected', String(other === name));
      tab.tabIndex = other === name ? 0 : -1;
      byId(`view-${other}`, HTMLElement).hidden = other !== name;
    }
    lending.lendTo(byId(`view-${name}`, HTMLElement));
    // First the layers: the report leaves out what no layer shows.
    switchLayers(name, true);
    const panel = come.get(name);
    guarded(nameOf(name), () => {
      panel?.scenario?.(session.report());
      panel?.clock?.(session.live());
    });
  }

  /** @param {string} name @param {HTMLButtonElement} tab */
  async function fetched(name, tab) {
    const { mode } = document.body.dataset;
    busy(tab, true);
    try {
      come.set(name, await makers[name]());
    } catch (error) {
      sayMissing(nameOf(name), error);
    }
    busy(tab, false);
    // Meanwhile the person may have gone elsewhere.
    return come.has(name) && wanted === name && document.body.dataset.mode === mode;
  }

  /** At once where the view has come before. @param {string} asked A name that no view has opens the first. */
  async function open(asked) {
    const name = names.includes(asked) ? asked : FIRST;
    const tab = tabs.get(name);
    wanted = name;
    if (come.has(name) || (tab && await fetched(name, tab))) show(name);
  }

  /** @param {string} name */
  async function choose(name) {
    await open(name);
    onChoice();
  }

  for (const [name, tab] of tabs) {
    tab.disabled = false;
    tab.addEventListener('click', () => choose(name));
    tab.addEventListener('keydown', (event) => {
      const move = MOVES.get(event.key);
      if (move === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      const at = names.indexOf(name) + move;
      // Steps go round, from the last to the first; the ends are the ends.
      const next = names[Number.isFinite(move) ? (at + names.length) % names.length : move < 0 ? 0 : names.length - 1];
      choose(next);
      tabs.get(next)?.focus();
    });
  }
  hub.add({
    name: () => nameOf(opened),
    scenario: (report) => come.get(opened)?.scenario?.(report),
    clock: (live) => come.get(opened)?.clock?.(live),
  });
  return { open };
}
