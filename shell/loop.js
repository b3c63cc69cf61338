// One animation frame at a time, asked for only when there is something to do.

/** A longer gap than this is a stall, not time that passed in the lesson. Seconds. */
const LONGEST_STEP_S = 0.1;

/**
 * @param {(dt_s: number, now_ms: number) => boolean} onFrame Returns whether it wants another frame.
 */
export function createLoop(onFrame) {
  let handle = 0;
  /** Time of the frame before, while frames follow each other; else null. @type {number | null} */
  let before = null;
  let frames = 0;

  /** @param {number} now_ms */
  function frame(now_ms) {
    handle = 0;
    frames += 1;
    const dt_s = before === null ? 0 : Math.min((now_ms - before) / 1000, LONGEST_STEP_S);
    before = now_ms;
    if (onFrame(dt_s, now_ms)) request();
    else before = null;
  }

  function request() {
    if (handle === 0 && !document.hidden) handle = requestAnimationFrame(frame);
  }

  document.addEventListener('visibilitychange', () => {
    before = null;
    if (document.hidden) {
      cancelAnimationFrame(handle);
      handle = 0;
    } else {
      request();
    }
  });

  return { request, frames: () => frames };
}
