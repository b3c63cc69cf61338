// The page's one notice of something that is missing or has failed.
import { byId } from './dom.js';

/** Says it in place of what was said before. @param {string} text */
export function sayNotice(text) {
  const notice = byId('notice', HTMLElement);
  notice.textContent = text;
  notice.hidden = false;
}

/** What was said is over. */
export function endNotice() {
  byId('notice', HTMLElement).hidden = true;
}
