// Where progress stays: on this device if it is allowed, else in this page alone.
import { announce } from './announce.js';
import { say } from './text.js';

const KEY = 'holding-practice';

/** Browsers and frames that keep nothing throw at the first touch. */
function storage() {
  try {
    const { localStorage } = window;
    localStorage.setItem(`${KEY}-try`, '1');
    localStorage.removeItem(`${KEY}-try`);
    return localStorage;
  } catch {
    return null;
  }
}

export function createStore() {
  const place = storage();
  return {
    /** Whether what is saved outlives the page. */
    keeps: place !== null,
    /** Key of the words that say where it is kept. */
    words: 'page.practice.kept',
    /** @returns {string | null} */
    read() {
      try {
        return place?.getItem(KEY) ?? null;
      } catch {
        return null;
      }
    },
    /** @param {string} text @returns {boolean} whether it was kept */
    write(text) {
      try {
        place?.setItem(KEY, text);
        return place !== null;
      } catch {
        return false;
      }
    },
    /** Whether another window has changed what is kept here. @param {StorageEvent} event */
    isChangedBy: (event) => place !== null && event.storageArea === place && (event.key === KEY || event.key === null),
    clear() {
      try {
        place?.removeItem(KEY);
      } catch {
        // Nothing is kept, so nothing is left.
      }
    },
  };
}

/** Days since 1 January 1970 on the person's own calendar. */
export function today(now = new Date()) {
  return Math.round(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) / 86400000);
}

/**
 * Offers a file. @param {BlobPart} content @param {string} name @param {string} [type]
 */
export function download(content, name, type = 'application/json') {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  announce(say('page.saved', { name }));
  setTimeout(() => URL.revokeObjectURL(url), 10000);
}
