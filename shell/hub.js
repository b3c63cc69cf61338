// Between the session in C++ and the parts of the page: collects what changed, and tells
// each part once a frame. The state itself is in the session; nothing is kept here.
import { guarded } from './guard.js';
import { createLoop } from './loop.js';

/** Bits of a ChangeMask. */
export const SCENARIO = 1;
export const PICTURE = 2;
export const CLOCK = 4;
const EVERYTHING = SCENARIO | PICTURE | CLOCK;

/** Readouts in the page are written at most this often while it plays. */
const READOUT_EVERY_MS = 100;
/** Typing and dragging count as settled after a pause of this length. */
const SETTLE_MS = 400;

/** @typedef {import('./types').Session} Session */
/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').Live} Live */

/**
 * @typedef {object} Part What a part of the page may want to hear.
 * @property {() => string} [name] As the page calls it, for the notice where it fails.
 * @property {(report: Evaluation) => void} [scenario] The scenario changed: at most once a frame.
 * @property {(live: Live) => void} [clock] Time or playing changed: at most 10 a second in play.
 * @property {(now_ms: number) => boolean} [paint] Something to draw changed; returns whether it
 *   put the drawing off and wants another frame.
 * @property {(report: Evaluation) => void} [settled] The scenario changed and rests.
 */

/** @typedef {ReturnType<typeof createHub>} Hub */

/** @param {Session} session */
export function createHub(session) {
  /** @type {Part[]} */
  const parts = [];
  let mask = 0;
  let owed = false;
  let held = false;
  let unsettled = false;
  let settle_timer = 0;
  let readout_ms = -Infinity;
  let clock_owed = false;
  /** The person's own scene, while a mode shows others. @type {string | null} */
  let own = null;
  let asking = false;

  /**
   * Tells every part; one that fails keeps it from no other.
   * @param {(part: Part) => boolean | void} hear
   * @returns Whether one of them wants more.
   */
  function tell(hear) {
    let more = false;
    for (const part of parts) if (guarded(part.name?.() ?? '', () => hear(part))) more = true;
    return more;
  }

  const loop = createLoop((dt_s, now_ms) => {
    let live = session.live();
    if (live.playing) {
      mask |= session.tick(dt_s);
      live = session.live();
    }
    const now = mask;
    mask = 0;
    if (now & SCENARIO) {
      const report = session.report();
      tell((part) => part.scenario?.(report));
    }
    clock_owed ||= (now & (CLOCK | SCENARIO)) !== 0;
    if (clock_owed && (!live.playing || now_ms - readout_ms >= READOUT_EVERY_MS)) {
      clock_owed = false;
      readout_ms = now_ms;
      tell((part) => part.clock?.(live));
    }
    if (now || owed) {
      owed = tell((part) => part.paint?.(now_ms));
    }
    return live.playing || owed || mask !== 0;
  });

  function settle() {
    clearTimeout(settle_timer);
    if (!unsettled || held) return;
    unsettled = false;
    const report = session.report();
    tell((part) => part.settled?.(report));
  }

  return {
    session,
    /** @param {Part} part */
    add(part) {
      parts.push(part);
    },
    /**
     * Takes the answer of a session call.
     * @param {number} changed
     * @param {{midway?: boolean}} [how] midway: more of the same is expected (typing, dragging)
     */
    change(changed, how = {}) {
      mask |= changed;
      if (changed & SCENARIO) {
        unsettled = true;
        clearTimeout(settle_timer);
        settle_timer = window.setTimeout(settle, how.midway ? SETTLE_MS : 0);
      }
      if (mask) loop.request();
    },
    /** Shows a scene that is not the person's; theirs waits. @param {string} link */
    borrow(link) {
      own ??= session.link();
      this.change(session.visit(link));
    },
    /** The person's own scene again. */
    giveBack() {
      const link = own;
      own = null;
      this.change(session.back());
      // Its address may have been followed meanwhile.
      if (link !== null && link !== session.link()) this.change(session.open(link));
    },
    /** The person's own scene. */
    link: () => own ?? session.link(),
    /** Another scene of the person's own, shown now or when it is given back. @param {string} link */
    open(link) {
      if (own !== null) own = link;
      // The same scene keeps its history.
      else if (link !== session.link()) this.change(session.open(link));
    },
    /** While the flight is asked for, it is neither drawn nor said nor played. @param {boolean} on */
    ask(on) {
      asking = on;
      document.body.toggleAttribute('data-asking', on);
      this.change(session.showFlight(!on));
    },
    asking: () => asking,
    /** Everything is read and drawn again: at the start, and after a new canvas. */
    refresh() {
      mask = EVERYTHING;
      loop.request();
    },
    /** While something is held by hand nothing settles. @param {boolean} on */
    hold(on) {
      held = on;
      if (!on) settle();
    },
    /** What was typed is final: it settles now, not after the pause. */
    settle,
    frames: loop.frames,
  };
}
