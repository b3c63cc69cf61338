// The address says the scene: read from the query and the hash (the hash wins), written
// to the hash once a change has settled.
import { byId } from './dom.js';
import { LINK_KEYS } from './fields.js';

/** @typedef {import('./hub.js').Hub} Hub */

/** Keys of the page itself, not of the scene. */
const PAGE_KEYS = new Set(['webgl']);

/** @param {string} text @returns {[key: string, pair: string][]} */
const pairsOf = (text) => text.slice(1).split('&').filter(Boolean)
  .map((pair) => [decodeURIComponentSafe(pair.split('=')[0]), pair]);

/**
 * Link text of the address as it stands. Of the query only what is the scene's: course
 * platforms add keys of their own. A stray key in the hash is the link's, and is reported.
 */
export function addressLink() {
  const query = pairsOf(location.search).filter(([key]) => LINK_KEYS.has(key));
  const hash = pairsOf(location.hash).filter(([key]) => !PAGE_KEYS.has(key));
  return [...query, ...hash].map(([, pair]) => pair).join('&');
}

/**
 * The address of a scene: the hash alone says it, so the query keeps only what is not the
 * scene's.
 * @param {string} link
 */
export function addressOf(link) {
  const kept = pairsOf(location.search).filter(([key]) => !LINK_KEYS.has(key)).map(([, pair]) => pair);
  const query = kept.length ? `?${kept.join('&')}` : '';
  return `${location.pathname}${query}${link ? `#${link}` : ''}`;
}

/** @param {string} text */
function decodeURIComponentSafe(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** @param {Hub} hub */
export function mountAddress(hub) {
  const { session } = hub;
  let written = location.hash;
  hub.add({
    settled() {
      const address = addressOf(session.link());
      try {
        history.replaceState(history.state, '', address);
      } catch {
        // Some frames forbid it: the page goes on, only the address is behind.
      }
      written = location.hash;
    },
  });
  // The way past the picture leads within the page; as a hash it would open another scene.
  document.querySelector('a.skip')?.addEventListener('click', (event) => {
    event.preventDefault();
    byId('column', HTMLElement).focus();
  });
  // The page of sources leads back to the scene that is left.
  const sources = byId('sources', HTMLAnchorElement);
  for (const about of ['pointerdown', 'click']) {
    sources.addEventListener(about, () => { sources.hash = session.link(); });
  }
  window.addEventListener('hashchange', () => {
    if (location.hash === written) return;
    written = location.hash;
    hub.change(session.open(addressLink()));
  });
}
