// core.mjs - loads core.wasm and gives its functions as plain JavaScript.
//
// Works in browsers, in workers and in Node.js 18 or newer. The module has no
// canvas, no input and no output of its own; docs/module.md describes the object
// that evaluate() returns.

import { compiled, siblingWasm, started, textPort } from './wasm.mjs';

/** @typedef {import('./core.d.mts').Session} Session */
/** @typedef {import('./core.d.mts').Tutor} Tutor */
/** @typedef {import('./core.d.mts').Evaluation} Evaluation */

const ABI = 1;
const LIVE = /** @type {const} */ (['t_s', 'start_s', 'end_s', 'playing', 'speed', 'heading_deg',
  'track_deg', 'groundspeed_kt', 'drift_deg', 'cross_nm', 'to_go_nm', 'x_nm', 'y_nm', 'phase']);
const LAYERS = ['no_correction', 'rule', 'exact', 'own', 'air_path', 'pattern', 'marks', 'streaks',
  'miss', 'sectors', 'other_entry', 'area', 'limits'];
const THEMES = ['light', 'dark', 'contrast_light', 'contrast_dark'];

/** @param {string} theme */
const themeNumber = (theme) => Math.max(0, THEMES.indexOf(theme));

/** Where a core in two parts asks for what is in the second; web/split-core.mjs has the names. */
const LACKING = 'lacking';
const MORE = 'core-more.wasm';
/** Layers whose drawing is in the second part. */
const MORE_LAYERS = ['sectors', 'other_entry', 'area', 'limits'];

/** @type {typeof import('./core.d.mts').load} */
export async function load(options = {}) {
  const module = await compiled(options.wasm ?? await siblingWasm('core.wasm'));
  let is_whole = !WebAssembly.Module.imports(module).some((wanted) => wanted.module === LACKING);
  const wasm = await started(module, { [LACKING]: `${MORE} is not there yet` });
  if (wasm.core_abi() !== ABI) throw new Error('core.wasm and core.mjs are of different builds');
  wasm.core_more(is_whole ? 1 : 0);

  /** @type {Promise<void> | null} */
  let coming = null;
  async function fetchMore() {
    const second = await compiled(options.more ?? await siblingWasm(MORE));
    // It fills the gaps of the first, in the first's memory.
    await WebAssembly.instantiate(second, { first: wasm });
    wasm.core_more(1);
    is_whole = true;
  }
  /** After a failure the next call tries again. */
  async function more() {
    if (is_whole) return;
    coming ??= fetchMore().finally(() => { coming = null; });
    await coming;
  }
  /** To call what is not there would stop the core where it stands. @param {string} call */
  function needMore(call) {
    if (!is_whole) throw new Error(`${call}: ${MORE} is not there; await core.more() first`);
  }
  if (!options.first) await more();

  const { give, take } = textPort(wasm);

  /** @param {string} query @returns {Evaluation} */
  const evaluate = (query) => {
    give(String(query ?? ''));
    wasm.evaluate_text();
    return JSON.parse(take());
  };

  /** @type {Session} */
  const session = {
    open: (link) => (give(link), wasm.session_open()),
    visit: (link) => (give(link), wasm.session_visit()),
    back: () => wasm.session_back(),
    lock: (keys, link) => (give(`${keys.join(' ')}\n${link}`), wasm.session_lock()),
    set: (key, value, midway = false) => (give(`${key}\n${value}`), wasm.session_set(midway ? 1 : 0)),
    clear: (key) => (give(`${key}\n`), wasm.session_set(0)),
    choose: (plan) => (give(plan), wasm.session_choose()),
    undo: () => wasm.session_undo(),
    redo: () => wasm.session_redo(),
    reset: () => wasm.session_reset(),
    canUndo: () => wasm.session_can_undo() === 1,
    canRedo: () => wasm.session_can_redo() === 1,
    link: () => (wasm.session_link(), take()),
    report: () => (wasm.session_report(), JSON.parse(take())),
    live() {
      const numbers = new Float64Array(wasm.memory.buffer, wasm.session_live(), LIVE.length);
      const live = /** @type {any} */ (Object.fromEntries(LIVE.map((name, i) => [name, numbers[i]])));
      live.playing = live.playing === 1;
      live.phase = live.phase < 0 ? '' : events()[live.phase] ?? '';
      // Worked out only for who looks at it.
      Object.defineProperty(live, 'needle', {
        get: () => (needMore('needle'), wasm.session_needle(), JSON.parse(take())),
      });
      return live;
    },
    resize: (w, h) => wasm.session_resize(w, h),
    pointer: (phase, id, x, y, coarse) => wasm.session_pointer(phase, id, x, y, coarse ? 1 : 0),
    hit: (x, y, coarse) => wasm.session_hit(x, y, coarse ? 1 : 0),
    handle(which) {
      const at = wasm.session_handle(which);
      if (!at) return null;
      const [x, y] = new Float64Array(wasm.memory.buffer, at, 2);
      return { x, y };
    },
    zoom: (x, y, factor) => wasm.session_zoom(x, y, factor),
    fit: () => wasm.session_fit(),
    play: () => wasm.session_play(),
    pause: () => wasm.session_pause(),
    seek: (t) => wasm.session_seek(t),
    step: (direction) => wasm.session_step(direction),
    speed: (multiplier) => wasm.session_speed(multiplier),
    tick: (dt) => wasm.session_tick(dt),
    layer(name, on) {
      if (on && MORE_LAYERS.includes(name)) needMore(`the layer ${name}`);
      give(name);
      return wasm.session_layer(on ? 1 : 0);
    },
    layers: () => Object.fromEntries(
      LAYERS.map((name) => (give(name), [name, wasm.session_layer_on() === 1]))),
    beside(link, label = '') {
      if (link) needMore('beside');
      give(`${link}\n${label}`);
      return wasm.session_beside();
    },
    showFlight: (on) => wasm.session_show_flight(on ? 1 : 0),
    growFlight: () => wasm.session_grow_flight(),
    showHandles: (on) => wasm.session_show_handles(on ? 1 : 0),
    diagram() {
      const at = wasm.session_diagram();
      const { buffer } = wasm.memory;
      const [items, points, text, itemBytes, pointBytes, textBytes] = new Uint32Array(buffer, at, 6);
      const [width, height, centre_x, centre_y, px_per_nm] = new Float64Array(buffer, at + 24, 5);
      return {
        items: new Uint8Array(buffer, items, itemBytes),
        points: new Uint8Array(buffer, points, pointBytes),
        text: new Uint8Array(buffer, text, textBytes),
        width, height, centre_x, centre_y, px_per_nm,
      };
    },
    pictureWords: () => (wasm.session_picture_words(), take()),
    svg: (theme = 'light') => (wasm.session_svg(themeNumber(theme)), take()),
    flyStart({ windShown = true, seed } = {}) {
      needMore('flyStart');
      return wasm.session_fly_start(windShown ? 1 : 0, seed === undefined ? 0 : 1, (seed ?? 0) >>> 0);
    },
    flyBug: (heading, way = 0) => (needMore('flyBug'), wasm.session_fly_bug(heading, way)),
    flyTurn: (side) => (needMore('flyTurn'), wasm.session_fly_turn(side)),
    flyLevel: () => (needMore('flyLevel'), wasm.session_fly_level()),
    flyClock: () => (needMore('flyClock'), wasm.session_fly_clock()),
    flyEnd: () => (needMore('flyEnd'), wasm.session_fly_end()),
    flyLeave: () => (needMore('flyLeave'), wasm.session_fly_leave()),
    flyState: () => (needMore('flyState'), wasm.session_fly_state(), JSON.parse(take())),
    flyDebrief: () => (needMore('flyDebrief'), wasm.session_fly_debrief(), JSON.parse(take())),
    flyLink: () => (needMore('flyLink'), wasm.session_fly_link(), take()),
  };
  /** Names of the flight's events, in order. */
  const events = () => {
    wasm.session_events();
    const names = take();
    return names ? names.split(' ') : [];
  };

  /** A line of its own in a call's text. @param {unknown} text */
  const line = (text) => String(text ?? '').replaceAll('\n', ' ');
  /** @type {Tutor} */
  const tutor = {
    sets: () => (wasm.tutor_sets(), JSON.parse(take())),
    useSet: (idOrJson) => (give(String(idOrJson)), wasm.tutor_use_set(), JSON.parse(take())),
    begin: ({ mode, code = '', skills = [] }) => (
      give(`${line(mode)}\n${line(code)}\n${line(skills.join(','))}`), wasm.tutor_begin(),
      JSON.parse(take())),
    state: () => (wasm.tutor_state(), JSON.parse(take())),
    answer: (text) => (give(String(text)), wasm.tutor_answer(), JSON.parse(take())),
    hint: () => (wasm.tutor_hint(), JSON.parse(take())),
    showMe: () => (wasm.tutor_show_me(), JSON.parse(take())),
    next: () => (wasm.tutor_next(), JSON.parse(take())),
    stop: () => (wasm.tutor_stop(), JSON.parse(take())),
    sheet: ({ code = '', count = 12 }) => (
      give(String(code)), wasm.tutor_sheet(Number.isInteger(count) ? count : 0), JSON.parse(take())),
    today: (day) => wasm.tutor_today(Number.isInteger(day) ? day : -1),
    newCode: (number) => (wasm.tutor_new_code(number >>> 0), take()),
    progress: () => (wasm.tutor_progress(), take()),
    takeProgress: (text) => (give(String(text)), wasm.tutor_take_progress(), JSON.parse(take())),
    clearProgress: () => wasm.tutor_clear_progress(),
  };

  return {
    evaluate,
    more,
    tutor: () => (needMore('tutor'), tutor),
    session(link) {
      if (link !== undefined) session.open(link);
      return session;
    },
    readClearance: (text, inbound = '') => (
      needMore('readClearance'), give(`${inbound}\n${text}`), wasm.clearance_text(), JSON.parse(take())),
    readWindReport: (kind, text, query = '') => (
      needMore('readWindReport'), give(`${kind}\n${query.replaceAll('\n', ' ')}\n${text}`), wasm.wind_report_text(),
      JSON.parse(take())),
    reportKinds: () => (needMore('reportKinds'), wasm.report_kinds_text(), JSON.parse(take())),
    themeCss: () => (wasm.theme_css_text(), take()),
    svg(query, { width = 880, height = 640, theme = 'light', time = NaN, handles = true } = {}) {
      give(String(query ?? ''));
      wasm.svg_text(width, height, themeNumber(theme), time, handles ? 1 : 0);
      return take();
    },
  };
}
