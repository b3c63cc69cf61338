// Parts of the page that come when they are asked for. One that cannot be had is said, and the
// rest of the page goes on.
import { sayNotice } from './notice.js';
import { say } from './text.js';

/**
 * Fetches once; after a failure the next call tries again.
 * @template T
 * @param {() => Promise<T>} fetched
 * @returns {() => Promise<T>}
 */
export function once(fetched) {
  /** @type {Promise<T> | null} */
  let coming = null;
  return () => {
    coming ??= fetched().catch((error) => {
      coming = null;
      throw error;
    });
    return coming;
  };
}

/**
 * The same of several.
 * @template T
 * @param {Record<string, () => Promise<T>>} parts By name.
 */
export const eachOnce = (parts) => Object.fromEntries(Object.entries(parts).map(([name, fetched]) => [name, once(fetched)]));

/** Whoever waits for a part hears that it is on its way. @param {Element} asker @param {boolean} on */
export function busy(asker, on) {
  if (on) asker.setAttribute('aria-busy', 'true');
  else asker.removeAttribute('aria-busy');
}

/** @param {string} part As the page calls it. @param {unknown} error */
export function sayMissing(part, error) {
  console.warn(error);
  sayNotice(say('page.part.missing', { part }));
}
