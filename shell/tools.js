// Undo, redo, reset, copy link; layers; zoom buttons.
import { sharedAddress } from './address.js';
import { announce } from './announce.js';
import { copyText } from './copy.js';
import { byId } from './dom.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */

/** How much one press of a zoom button magnifies. */
const ZOOM_STEP = 1.4;
/** How long the button says that it copied. */
const COPIED_MS = 2000;

/** @param {Hub} hub */
function mountCopy(hub) {
  const button = byId('copy', HTMLButtonElement);
  const by_hand = byId('copy-fallback', HTMLElement);
  const field = byId('copy-text', HTMLInputElement);
  let timer = 0;

  async function copy() {
    const address = sharedAddress(hub.link());
    const copied = await copyText(address);
    by_hand.hidden = copied;
    if (!copied) {
      field.value = address;
      field.focus();
      field.select();
      return;
    }
    announce(say('page.copied'));
    button.textContent = say('page.copied');
    clearTimeout(timer);
    timer = window.setTimeout(() => { button.textContent = say('page.copy'); }, COPIED_MS);
  }

  button.addEventListener('click', copy);
  mountShare(hub, copy);
}

/** To another program of the device, where there is a way; else there is no such button. */
/** @param {Hub} hub @param {() => Promise<void>} copy Where sharing fails. */
function mountShare(hub, copy) {
  const button = byId('share', HTMLButtonElement);
  if (typeof navigator.share !== 'function') return;
  button.hidden = false;
  button.addEventListener('click', async () => {
    try {
      await navigator.share({ title: document.title, url: sharedAddress(hub.link()) });
    } catch (error) {
      // Thought better of it: nothing is to be said.
      if (!(error instanceof DOMException && error.name === 'AbortError')) await copy();
    }
  });
}

/** @param {Hub} hub */
export function mountTools(hub) {
  const { session } = hub;
  const undo = byId('undo', HTMLButtonElement);
  const redo = byId('redo', HTMLButtonElement);
  undo.addEventListener('click', () => hub.change(session.undo()));
  redo.addEventListener('click', () => hub.change(session.redo()));
  byId('reset', HTMLButtonElement).addEventListener('click', () => hub.change(session.reset()));
  mountCopy(hub);
  hub.add({
    scenario() {
      disable(undo, !session.canUndo(), redo);
      disable(redo, !session.canRedo(), undo);
    },
  });
}

/** A button that goes dead under the finger hands the focus on, or Tab would start at the top. */
/** @param {HTMLButtonElement} button @param {boolean} dead @param {HTMLButtonElement} neighbour */
function disable(button, dead, neighbour) {
  const focused = document.activeElement === button;
  button.disabled = dead;
  if (dead && focused) {
    neighbour.disabled = false;
    neighbour.focus();
  }
}

/** @param {Hub} hub @param {HTMLElement} picture */
export function mountZoom(hub, picture) {
  const { session } = hub;
  /** @param {number} factor */
  const zoom = (factor) => () =>
    hub.change(session.zoom(picture.clientWidth / 2, picture.clientHeight / 2, factor));
  byId('zoom-in', HTMLButtonElement).addEventListener('click', zoom(ZOOM_STEP));
  byId('zoom-out', HTMLButtonElement).addEventListener('click', zoom(1 / ZOOM_STEP));
  byId('fit', HTMLButtonElement).addEventListener('click', () => hub.change(session.fit()));
}

/** @param {Hub} hub */
export function mountLayers(hub) {
  const { session } = hub;
  const layers = byId('layers', HTMLElement);
  for (const box of layers.querySelectorAll('input')) {
    box.checked = session.layers()[box.value] ?? false;
    box.addEventListener('change', () => hub.change(session.layer(box.value, box.checked)));
  }
}
