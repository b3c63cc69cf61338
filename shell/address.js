// The address says the scene: read from the query and the hash (the hash wins), written
// to the hash once a change has settled.
import { byId } from './dom.js';
import { LINK_KEYS } from './fields.js';

/** @typedef {import('./hub.js').Hub} Hub */

/** Which view is open; like the scene's keys the hash says it once something has changed. */
const VIEW_KEY = 'view';
/** Keys of the page that the hash says whenever it is written. */
const SAID_KEYS = new Set([VIEW_KEY, 'mode', 'step', 'set', 'code', 'check', 'map', 'plan', 'less', 'most', 'tol', 'cloud', 'spread']);
/** Keys of who embeds or sends the page: as they were when it was opened, in every address that it writes. */
const KEPT_KEYS = new Set(['embed', 'host', 'hide', 'lock']);
/** Of those, what is of the frame alone: an address that is handed on does not have it. */
const FRAME_KEYS = new Set(['embed', 'host', 'lms', 'lms-set', 'lms-code']);
/** Keys of the page itself, not of the scene. */
const PAGE_KEYS = new Set(['webgl', ...FRAME_KEYS, ...SAID_KEYS, ...KEPT_KEYS]);
/** The view that needs no saying. */
const FIRST_VIEW = 'plan';

/** What the open mode adds. @type {() => Record<string, string>} */
let modeKeys = () => ({});

/** @param {string} text @returns {[key: string, pair: string][]} */
const pairsOf = (text) => text.slice(1).split('&').filter(Boolean)
  .map((pair) => [decodeURIComponentSafe(pair.split('=')[0]), pair]);

/** @param {string} text Query or hash. @param {(key: string) => boolean} has */
const onlyPairs = (text, has) => pairsOf(text).filter(([key]) => has(key)).map(([, pair]) => pair).join('&');

/** What is kept and stood in the hash; the query keeps its own. */
export const kept_in_hash = onlyPairs(location.hash, (key) => KEPT_KEYS.has(key));

/** Link text without what is the page's: of a text that came from elsewhere. @param {string} text */
export const sceneOf = (text) => onlyPairs(`#${text.replace(/^[?#]/, '')}`, (key) => !PAGE_KEYS.has(key));

/**
 * Link text of the address as it stands. Of the query only what is the scene's: course
 * platforms add keys of their own. A stray key in the hash is the link's, and is reported.
 */
export const addressLink = () => [onlyPairs(location.search, (key) => LINK_KEYS.has(key)), sceneOf(location.hash)]
  .filter(Boolean).join('&');

/** What the last pair of a key says. @param {[key: string, pair: string][]} pairs @param {string} name */
function said(pairs, name) {
  const text = pairs.filter(([key]) => key === name).at(-1)?.[1].slice(name.length + 1);
  return text === undefined ? null : decodeURIComponentSafe(text);
}

/** What the address says of a key of the page itself; the hash wins. @param {string} name */
export const addressKey = (name) => said([...pairsOf(location.search), ...pairsOf(location.hash)], name);

/** The same of the query alone, where a key that is not of SAID_KEYS stays as it was opened with. @param {string} name */
export const queryKey = (name) => said(pairsOf(location.search), name);

/** Whether the query says what the hash is to say, as in links of course platforms. */
export const querySays = () => pairsOf(location.search).some(([key]) => SAID_KEYS.has(key));

/** Name of the view that the address asks for, as it stands. */
export const addressView = () => addressKey(VIEW_KEY) ?? FIRST_VIEW;

/**
 * The address of a scene, seen in the view that is open: the hash alone says both, so the
 * query keeps only what is neither.
 * @param {string} link
 * @param {Record<string, string>} [mode] Keys of the mode; as they stand.
 */
export function addressOf(link, mode = modeKeys()) {
  const query = onlyPairs(location.search, (key) => !LINK_KEYS.has(key) && !SAID_KEYS.has(key));
  const hash = hashOf(link, mode);
  return `${location.pathname}${query ? `?${query}` : ''}${hash ? `#${hash}` : ''}`;
}

/** What the query says of an instructor's rules, for an address that has nothing else in it. */
export const rulesInQuery = () => onlyPairs(location.search, (key) => KEPT_KEYS.has(key) && !FRAME_KEYS.has(key));

/** The address to hand on: of the scene and the mode, as the instructor has them, without a frame. @param {string} link */
export function sharedAddress(link) {
  const url = new URL(addressOf(link), location.href);
  url.search = handedOn(url.search);
  url.hash = handedOn(url.hash);
  return url.href;
}

/** Query or hash without what is of the frame alone. @param {string} text */
export const handedOn = (text) => onlyPairs(text, (key) => !FRAME_KEYS.has(key));

/** What stands behind the #. @param {string} link @param {Record<string, string>} [mode] */
export function hashOf(link, mode = modeKeys()) {
  const view = byId('column', HTMLElement).dataset.view ?? FIRST_VIEW;
  const said = Object.entries(mode).map(([key, value]) => `${key}=${encodeURIComponent(value)}`);
  return [link, view === FIRST_VIEW ? '' : `${VIEW_KEY}=${view}`, ...said, kept_in_hash].filter(Boolean).join('&');
}

/** A link gets its hash when it is used, however it is used. @param {HTMLAnchorElement} link @param {() => string} hash */
export function takesHash(link, hash) {
  for (const about of ['pointerdown', 'click']) link.addEventListener(about, () => { link.hash = hash(); });
}

/** @param {string} text */
function decodeURIComponentSafe(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/**
 * @param {Hub} hub
 * @param {(view: string) => Promise<void>} openView
 * @param {() => Record<string, string>} keys What the open mode adds.
 * @param {() => Promise<void>} openMode The address may name another.
 */
export function mountAddress(hub, openView, keys = () => ({}), openMode = async () => {}) {
  modeKeys = keys;
  let written = location.hash;
  let followed = 0;
  /** The address that is followed, by number, while some of what it names is on its way; 0: none. */
  let coming = 0;
  /** Something changed meanwhile. */
  let owed = false;

  /** For what is not of the scene. */
  function write() {
    owed = coming !== 0;
    // The address leads elsewhere already, and not all of it is there or the page has not heard of it yet.
    if (owed || location.hash !== written) return;
    try {
      history.replaceState(history.state, '', addressOf(hub.link()));
    } catch {
      // Some frames forbid it: the page goes on, only the address is behind.
    }
    written = location.hash;
  }

  /** Opens what the address names; until it is there nothing writes over it. @param {() => void} openScene */
  async function follow(openScene) {
    followed += 1;
    const mine = followed;
    coming = mine;
    try {
      // In this order: a mode keeps the layers of the view that it finds.
      await openView(addressView());
      // Else it leads elsewhere by now.
      if (mine !== coming) return;
      openScene();
      await openMode();
    } finally {
      if (mine === coming) {
        coming = 0;
        if (owed) write();
      }
    }
  }

  hub.add({ settled: write });
  // The way past the picture leads within the page; as a hash it would open another scene.
  document.querySelector('a.skip')?.addEventListener('click', (event) => {
    event.preventDefault();
    byId('column', HTMLElement).focus();
  });
  // Other pages lead back to the scene that is left; the single file does not have them.
  for (const link of /** @type {NodeListOf<HTMLAnchorElement>} */ (document.querySelectorAll('a.takes-scene'))) {
    takesHash(link, () => hashOf(hub.link()));
  }
  window.addEventListener('hashchange', () => {
    if (location.hash === written) return;
    written = location.hash;
    follow(() => hub.open(addressLink()));
  });
  return {
    write,
    /** What the address names beside the scene, which is there. */
    followFirst: () => follow(() => {}),
  };
}
