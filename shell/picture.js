// Pointer, wheel and touch on the picture, handed to the session, which finds the handles.
// The page keeps its own scrolling: a vertical swipe that starts off a handle, and the wheel
// without a modifier key, never end here.

/** Phases of session.pointer. */
const DOWN = 0;
const MOVE = 1;
const UP = 2;
const CANCEL = 3;
const LEAVE = 4;

/** Wheel pixels to a doubling, about; a trackpad pinch sends small ones. */
const WHEEL_RATE = 0.004;

/** @param {import('./hub.js').Hub} hub @param {HTMLElement} picture */
export function mountPicture(hub, picture) {
  const { session } = hub;
  /** Pointers that are down. @type {Set<number>} */
  const down = new Set();

  /** @param {{clientX: number, clientY: number}} at @returns {[x: number, y: number]} */
  function place(at) {
    const box = picture.getBoundingClientRect();
    return [at.clientX - box.left, at.clientY - box.top];
  }

  /** @param {number} phase @param {PointerEvent} event */
  function send(phase, event) {
    const [x, y] = place(event);
    const coarse = event.pointerType !== 'mouse';
    hub.change(session.pointer(phase, event.pointerId, x, y, coarse), { midway: down.size > 0 });
  }

  /** @param {PointerEvent} event */
  function showCursor(event) {
    if (event.pointerType !== 'mouse') return;
    const [x, y] = place(event);
    const on_handle = session.hit(x, y, false) !== 0;
    picture.dataset.cursor = down.size > 0 ? 'grabbing' : on_handle ? 'grab' : '';
  }

  picture.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    // A field that is being typed in is left, as by any other click beside it.
    if (document.activeElement instanceof HTMLInputElement) document.activeElement.blur();
    picture.setPointerCapture(event.pointerId);
    down.add(event.pointerId);
    hub.hold(true);
    send(DOWN, event);
    showCursor(event);
  });
  picture.addEventListener('pointermove', (event) => {
    send(MOVE, event);
    showCursor(event);
  });
  /** @param {number} phase */
  const ending = (phase) => /** @param {PointerEvent} event */ (event) => {
    if (!down.delete(event.pointerId)) return;
    send(phase, event);
    showCursor(event);
    if (down.size === 0) hub.hold(false);
  };
  picture.addEventListener('pointerup', ending(UP));
  picture.addEventListener('pointercancel', ending(CANCEL));
  picture.addEventListener('pointerleave', (event) => {
    // A finger leaves whenever it is lifted: what it tapped stays told.
    if (event.pointerType !== 'touch' && !down.has(event.pointerId)) send(LEAVE, event);
  });

  // A finger on a handle, or a second finger, is the picture's; anything else may scroll.
  picture.addEventListener('touchstart', (event) => {
    const [x, y] = place(event.changedTouches[0]);
    if (event.touches.length > 1 || session.hit(x, y, true) !== 0) event.preventDefault();
  }, { passive: false });

  picture.addEventListener('wheel', (event) => {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    const pixels = event.deltaY * (event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1);
    const [x, y] = place(event);
    hub.change(session.zoom(x, y, Math.exp(-pixels * WHEEL_RATE)));
  }, { passive: false });
}
