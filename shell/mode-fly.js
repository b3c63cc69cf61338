// The mode "Hand flying": choices, cockpit, debrief. The flight itself, its clock and its
// debrief are the session's; here are the controls and the words about them.
import { announce } from './announce.js';
import { mountDials } from './dials.js';
import { byId, write } from './dom.js';
import { clock, degrees, direction, known, miles, whole } from './format.js';
import { el } from './markup.js';
import { offCourse } from './outcome-markup.js';
import { bearingWords, courseWords } from './panel-displays.js';
import { table } from './panel-parts.js';
import { patcher } from './patch.js';
import { say } from './text.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {import('./types').FlyState} FlyState */
/** @typedef {import('./types').Debrief} Debrief */
/** @typedef {import('./types').Evaluation} Evaluation */
/** @typedef {import('./types').Live} Live */

/** Keys of the heading bug's group: degrees. @type {Map<string, number>} */
const KEYS = new Map([['ArrowUp', 1], ['ArrowDown', -1], ['PageUp', 10], ['PageDown', -10]]);
/** Over the fix, not beside it. */
const OVER_NM = 0.1;

const NONE = '\u2013';

/** The chosen one of a group of radios. @param {string} name */
const chosen = (name) => document.querySelector(`input[name="${name}"]:checked`)?.getAttribute('value') ?? '';

/** @param {Debrief} debrief */
function comparison({ rounds, rule, exact }) {
  const you = rounds[0];
  const rows = [
    ['heading', degrees(you?.heading_deg), degrees(rule?.heading_deg), degrees(exact?.heading_deg)],
    ['time', clock(you?.outbound_s), clock(rule?.time_s), clock(exact?.time_s)],
    ['off', offCourse(you?.rollout?.cross_nm, say), '', offCourse(exact?.rollout?.cross_nm, say)],
    ['to_go', you?.rollout && you.rollout.to_go_nm > 0 ? miles(you.rollout.to_go_nm) : NONE, '', miles(exact?.rollout?.to_go_nm)],
  ];
  return table(say('page.fly.table'),
    [say('page.fly.columns.what'), say('page.fly.columns.you'), say('page.fly.columns.rule'), say('page.fly.columns.exact')],
    rows.map(([name, ...cells]) => ({ cells: [say(`page.fly.row.${name}`), ...cells] })));
}

/**
 * @param {Hub} hub
 * @param {import('./types').Core} _core
 * @returns {{open(): void, close(): void, scenario(report: Evaluation): void, clock(live: Live): void}}
 */
export function flyMode(hub, _core) {
  const { session } = hub;
  const stages = { off: byId('fly-before', HTMLElement), flying: byId('fly-cockpit', HTMLElement), debrief: byId('fly-debrief', HTMLElement) };
  const heading = byId('fly-heading', HTMLElement);
  const time = byId('fly-time', HTMLElement);
  const stopwatch = byId('fly-stopwatch', HTMLElement);
  const turning = byId('fly-turning', HTMLElement);
  const field = byId('fly-bug-field', HTMLInputElement);
  const pause = byId('fly-pause', HTMLButtonElement);
  const watch = byId('fly-clock', HTMLButtonElement);
  const why = byId('fly-why', HTMLElement);
  const start = byId('fly-start', HTMLButtonElement);
  const picture = byId('fly-picture', HTMLInputElement);
  const needles = byId('fly-needles', HTMLInputElement);
  const summary = byId('summary', HTMLElement);
  const dials = mountDials(byId('fly-dials', HTMLElement));
  const showTable = patcher(byId('fly-table', HTMLElement));
  const showLines = patcher(byId('fly-lines', HTMLElement));
  let opened = false;
  /** The student has pressed Start. */
  let begun = false;
  let seed = 0;
  /** @type {FlyState | null} */
  let before = null;

  /** @param {number} changed A command's answer; nothing changed means it was not taken. */
  function give(changed) {
    hub.change(changed);
    show();
  }

  /** Which of the three stages is in view. @param {FlyState['phase']} phase */
  function stage(phase) {
    for (const [name, part] of Object.entries(stages)) part.hidden = name !== phase;
    document.body.dataset.flyPicture = phase === 'flying' && !picture.checked ? 'hidden' : 'shown';
  }

  /** @param {FlyState} now */
  function turningWords(now) {
    if (now.turning === 'none') return say('page.fly.state.level');
    return now.bug_deg === null ? say(`page.fly.state.${now.turning}`)
      : say(`page.fly.state.bug.${now.turning}`, { bug: direction(now.bug_deg) });
  }

  /** What a pilot would hear of: each change once. @param {FlyState} now */
  function tell(now) {
    if (before?.phase !== 'flying') return;
    const said = [];
    if (now.passages > before.passages) {
      const near = now.passage_nm ?? 0;
      said.push(say(near <= OVER_NM ? 'page.fly.said.fix' : 'page.fly.said.near', { nm: miles(near) }));
    }
    if (now.turning !== before.turning) {
      said.push(now.turning === 'none' ? say('page.fly.said.level', { heading: direction(now.heading_deg) })
        : say(`page.fly.said.${now.turning}`));
    }
    if (now.commands_left === 0 && before.commands_left > 0) said.push(say('page.fly.said.used'));
    if (said.length) announce(said.join(' '));
  }

  /** @param {FlyState} now */
  function showCockpit(now) {
    write(heading, `${direction(now.heading_deg)}°`);
    write(time, clock(now.t_s));
    write(stopwatch, clock(now.stopwatch_s));
    write(turning, turningWords(now));
    if (document.activeElement !== field) field.value = now.bug_deg === null ? '' : direction(now.bug_deg);
    write(pause, say(now.playing ? 'page.fly.pause' : 'page.fly.resume'));
    write(watch, say(now.stopwatch_s === null ? 'page.fly.stopwatch.start' : 'page.fly.stopwatch.again'));
    for (const side of ['left', 'right']) {
      byId(`fly-${side}`, HTMLButtonElement).setAttribute('aria-pressed', String(now.turning === side && now.bug_deg === null));
    }
    const needle = needles.checked ? session.live().needle : null;
    byId('fly-dials-part', HTMLElement).hidden = !needle;
    if (!needle) return;
    dials.course(needle.deflection, needle.reliable, courseWords(needle));
    dials.bearing(needle.relative_deg, needle.reliable, bearingWords(needle));
  }

  function showDebrief() {
    const debrief = session.flyDebrief();
    if (!debrief) return;
    showTable([comparison(debrief)]);
    showLines(debrief.lines.map(({ about, text }) => el('p', { 'data-about': about }, text)));
  }

  /** Ready, flying, or in the debrief. @param {FlyState} now */
  const stageOf = (now) => (now.phase === 'debrief' ? 'debrief' : begun && now.phase === 'flying' ? 'flying' : 'off');

  function show() {
    // Another scene has ended the flight.
    if (session.flyState().phase === 'off') arm();
    const now = session.flyState();
    const at = stageOf(now);
    if (before === null || now.phase !== before.phase) {
      stage(at);
      if (at === 'debrief') showDebrief();
      if (now.phase !== 'off') write(summary, now.summary);
    }
    if (at === 'flying') {
      showCockpit(now);
      tell(now);
    }
    before = now;
    if (at === 'flying' && now.over) end();
  }

  /**
   * The flight stands ready at its beginning, in place of the plans: nothing is given away.
   * @param {boolean} [anew] another wind, where one is drawn
   */
  function arm(anew = true) {
    const wind = chosen('fly-wind');
    if (anew) seed = crypto.getRandomValues(new Uint32Array(1))[0];
    begun = false;
    before = null;
    const changed = session.flyStart({ windShown: wind === 'known', seed: wind === 'drawn' ? seed : undefined });
    why.hidden = changed !== 0;
    start.disabled = changed === 0;
    if (changed === 0) write(why, session.flyState().why ?? '');
    else hub.change(changed);
    return changed !== 0;
  }

  function begin() {
    if (!arm(session.flyState().phase !== 'debrief')) return;
    begun = true;
    hub.change(session.speed(Number(chosen('fly-speed') || '1')));
    hub.change(session.play());
    show();
    const { wind, heading_deg } = session.flyState();
    write(byId('fly-wind-words', HTMLElement), wind
      ? say('page.fly.wind.shown', { from: direction(wind.from_deg), kt: whole(wind.speed_kt) })
      : say('page.fly.wind.unknown'));
    announce(say('page.fly.started', { heading: direction(heading_deg) }));
    // Where the picture is above it, it stays in view.
    stages.flying.focus({ preventScroll: true });
  }

  function end() {
    const { over } = session.flyState();
    hub.change(session.flyEnd());
    show();
    announce(`${over ? `${say('page.fly.over')} ` : ''}${say('page.fly.ended')}`);
    stages.debrief.focus();
  }

  /** @param {number} by */
  function nudge(by) {
    const { bug_deg, heading_deg } = session.flyState();
    setBug((bug_deg ?? Math.round(heading_deg)) + by);
  }

  /** @param {number} deg */
  function setBug(deg) {
    const changed = session.flyBug(deg);
    if (changed === 0) return;
    give(changed);
    const { bug_deg } = session.flyState();
    field.value = direction(bug_deg);
  }

  /** What was typed, where it is a heading; else what the bug says comes back. */
  function typed() {
    const text = field.value.trim().replace(/°$/, '');
    const { bug_deg } = session.flyState();
    if (/^\d{1,3}$/.test(text) && Number(text) <= 360) {
      if (bug_deg === null || Number(text) % 360 !== Math.round(bug_deg) % 360) setBug(Number(text));
    }
    const now = session.flyState().bug_deg;
    field.value = now === null ? '' : direction(now);
  }

  function leave() {
    const changed = session.flyLeave();
    before = null;
    begun = false;
    stage('off');
    if (changed === 0) return;
    hub.change(changed);
    write(summary, session.report().summary);
  }

  start.addEventListener('click', begin);
  for (const radio of document.querySelectorAll('input[name="fly-wind"]')) {
    radio.addEventListener('change', () => {
      arm();
      show();
    });
  }
  byId('fly-end', HTMLButtonElement).addEventListener('click', end);
  byId('fly-again', HTMLButtonElement).addEventListener('click', begin);
  byId('fly-options', HTMLButtonElement).addEventListener('click', () => {
    arm();
    show();
    start.focus();
  });
  byId('fly-explore', HTMLButtonElement).addEventListener('click', () => {
    const link = session.flyLink();
    opened = false;
    leave();
    // The address leads there, as any link does: the scene flown, with the student's numbers.
    location.hash = link;
  });
  byId('fly-left', HTMLButtonElement).addEventListener('click', () => give(session.flyTurn(-1)));
  byId('fly-right', HTMLButtonElement).addEventListener('click', () => give(session.flyTurn(1)));
  byId('fly-level', HTMLButtonElement).addEventListener('click', () => give(session.flyLevel()));
  watch.addEventListener('click', () => {
    give(session.flyClock());
    announce(say('page.fly.said.stopwatch'));
  });
  pause.addEventListener('click', () => give(session.live().playing ? session.pause() : session.play()));
  for (const radio of document.querySelectorAll('input[name="fly-speed"]')) {
    radio.addEventListener('change', () => give(session.speed(Number(chosen('fly-speed')))));
  }
  const bug = byId('fly-bug', HTMLElement);
  bug.addEventListener('click', (event) => {
    const by = event.target instanceof Element ? event.target.closest('[data-by]')?.getAttribute('data-by') : null;
    if (by) nudge(Number(by));
  });
  bug.addEventListener('keydown', (event) => {
    if (event.key === 'Enter' && event.target === field) typed();
    const by = KEYS.get(event.key);
    if (by === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    nudge(by);
  });
  field.addEventListener('focus', () => field.select());
  field.addEventListener('change', typed);

  return {
    open() {
      opened = true;
      arm();
      show();
    },
    close() {
      opened = false;
      leave();
      delete document.body.dataset.flyPicture;
    },
    scenario(report) {
      const { fields } = report;
      const side = say(`page.fly.hold.${fields.turns}`);
      write(byId('fly-hold', HTMLElement), say('page.fly.hold', {
        inbound: direction(Number(fields.inbound)), turns: side, arrive: direction(Number(fields.arrive)) }));
      if (opened) show();
    },
    clock() {
      if (opened) show();
    },
  };
}
