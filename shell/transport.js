// Play, pause, step by event, scrub, speed: the flight's clock.
import { byId, write } from './dom.js';
import { clock } from './format.js';
import { duration, say } from './text.js';

/** @typedef {import('./types').Live} Live */
/** @typedef {import('./types').FlightEvent} FlightEvent */

/** Arrow keys move the slider by a second, page keys by ten; its own step is finer. */
const KEYS = new Map([['ArrowRight', 1], ['ArrowUp', 1], ['ArrowLeft', -1], ['ArrowDown', -1],
  ['PageUp', 10], ['PageDown', -10]]);

const CALM = matchMedia('(prefers-reduced-motion: reduce)');

/** @param {Live} live @param {FlightEvent[]} events */
function spoken(live, events) {
  const event = events.find((e) => e.name === live.phase);
  const key = live.t_s < 0 ? 'page.scrub.before' : event ? 'page.scrub.after' : 'page.scrub.time';
  return say(key, { time: duration(live.t_s), event: event?.label ?? '' });
}

/** Events whose labels come first where there is not room for all; the start says itself. */
const FIRST_LABELS = ['roll-out', 'fix', 'time-up'];
/** Least gap between two labels, CSS pixels. */
const LABEL_GAP = 8;

/** @param {string} name */
const rank = (name) => {
  const at = FIRST_LABELS.indexOf(name);
  return at < 0 ? FIRST_LABELS.length : at;
};

/**
 * Marks of the events under the slider; a label with no room is left out.
 * @param {HTMLElement} ticks
 * @param {FlightEvent[]} events
 * @param {Live} live
 */
function drawTicks(ticks, events, live) {
  const span = Math.max(live.end_s - live.start_s, 1e-9);
  const labels = events.map((event) => {
    const label = document.createElement('span');
    label.textContent = event.mark;
    return label;
  });
  ticks.replaceChildren(...events.map((event, i) => {
    const tick = document.createElement('span');
    tick.className = 'tick';
    tick.style.left = `${(100 * (event.at_s - live.start_s)) / span}%`;
    tick.append(labels[i]);
    return tick;
  }));
  const limits = ticks.getBoundingClientRect();
  const boxes = labels.map((label) => label.getBoundingClientRect());
  /** @type {[left: number, right: number][]} */
  const taken = [];
  const order = events.map((_, i) => i).sort((a, b) => rank(events[a].name) - rank(events[b].name));
  for (const i of order) {
    const { left, right } = boxes[i];
    const shift = Math.max(limits.left - left, 0) - Math.max(right - limits.right, 0);
    const clear = taken.every(([l, r]) => right + shift + LABEL_GAP < l || left + shift - LABEL_GAP > r);
    labels[i].hidden = !clear;
    labels[i].style.translate = `${shift}px 0`;
    if (clear) taken.push([left + shift, right + shift]);
  }
}

/** @param {import('./hub.js').Hub} hub */
export function mountTransport(hub) {
  const { session } = hub;
  const play = byId('play', HTMLButtonElement);
  const previous = byId('previous', HTMLButtonElement);
  const next = byId('next', HTMLButtonElement);
  const scrub = byId('scrub', HTMLInputElement);
  const speed = byId('speed', HTMLSelectElement);
  const ticks = byId('ticks', HTMLElement);
  const readout = byId('clock', HTMLElement);
  const controls = [play, previous, next, scrub, speed];
  /** @type {FlightEvent[]} */
  let events = [];

  play.addEventListener('click', () =>
    hub.change(session.live().playing ? session.pause() : session.play()));
  previous.addEventListener('click', () => hub.change(session.step(-1)));
  next.addEventListener('click', () => hub.change(session.step(1)));
  speed.addEventListener('change', () => hub.change(session.speed(Number(speed.value))));
  scrub.addEventListener('input', () => hub.change(session.seek(Number(scrub.value))));
  scrub.addEventListener('keydown', (event) => {
    const by_s = KEYS.get(event.key);
    if (by_s === undefined) return;
    event.preventDefault();
    hub.change(session.seek(session.live().t_s + by_s));
  });

  hub.add({
    scenario(report) {
      events = report.events;
      const live = session.live();
      // Reduced motion: the finished track is what is shown, unless it is being played.
      if (CALM.matches && !live.playing && !hub.asking() && document.activeElement !== scrub) {
        hub.change(session.seek(live.end_s));
      }
      drawTicks(ticks, events, live);
      for (const control of controls) control.disabled = hub.asking();
    },
    clock(live) {
      const word = say(live.playing ? 'page.pause' : 'page.play');
      if (play.getAttribute('aria-label') !== word) play.setAttribute('aria-label', word);
      play.dataset.playing = String(live.playing);
      scrub.min = String(live.start_s);
      scrub.max = String(live.end_s);
      scrub.value = String(live.t_s);
      const part = (live.t_s - live.start_s) / Math.max(live.end_s - live.start_s, 1e-9);
      scrub.style.setProperty('--part', String(Math.min(1, Math.max(0, part))));
      scrub.setAttribute('aria-valuetext', spoken(live, events));
      write(readout, say('page.clock', { now: clock(live.t_s), end: clock(live.end_s) }));
      if (speed.value !== String(live.speed)) speed.value = String(live.speed);
    },
  });
  new ResizeObserver(() => drawTicks(ticks, events, session.live())).observe(ticks);
  for (const control of controls) control.disabled = false;
}
