// Picture and paper, fetched with the first touch of the page, pointer or key: a browser that is
// told to print does so at once, and who only looks needs none of it.
import { byId } from './dom.js';
import { once, sayMissing } from './later.js';

const TOUCHES = ['pointerover', 'pointerdown', 'keydown', 'focusin'];

/** Buttons by id, with what they do. */
const BUTTONS = /** @type {const} */ ({ 'save-svg': 'saveSvg', 'save-png': 'savePng', 'print-handout': 'printHandout' });

/** @param {import('./hub.js').Hub} hub @param {import('./types').Core} core */
export function mountTakeAway(hub, core) {
  const parts = once(async () => (await import('./take-away.js')).takeAway(hub, core));
  const first = new AbortController();
  for (const about of TOUCHES) {
    window.addEventListener(about, (event) => {
      // Who takes a new version loads the page again: a fetch just then would keep the worker from it.
      if (event.target instanceof Element && event.target.closest('#update')) return;
      first.abort();
      // Said to who asks for it.
      parts().catch(() => {});
    }, { signal: first.signal });
  }
  for (const [id, work] of Object.entries(BUTTONS)) {
    const button = byId(id, HTMLButtonElement);
    button.addEventListener('click', async () => {
      const made = await parts().catch((error) => sayMissing(button.textContent ?? '', error));
      await made?.[work]();
    });
  }
}
