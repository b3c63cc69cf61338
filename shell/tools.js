// Undo, redo, reset, copy link; layers; zoom buttons.
import { addressOf } from './address.js';
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
  button.addEventListener('click', async () => {
    const address = new URL(addressOf(hub.link()), location.href).href;
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
