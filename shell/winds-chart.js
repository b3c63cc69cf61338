// The map of the mode "All winds": pixels, what stands over them, the person's own wind as a point
// that can be dragged, and what there is to say of it all.
import { announce } from './announce.js';
import { byId, write } from './dom.js';
import { direction, whole } from './format.js';
import { isFixed } from './instructor.js';
import { el } from './markup.js';
import { patcher } from './patch.js';
import { download } from './practice-store.js';
import { MOST_PX } from './study-host.js';
import { say } from './text.js';
import { THEMES, paintedTheme } from './theme.js';
import { keyTrees } from './winds-key.js';
import { MARGIN_PX, overlay, placeOf, windAt } from './winds-map.js';
import { mapSvg, tableText, tableWinds } from './winds-take.js';
import { levelWords, planName, shareWords, windWords } from './winds-words.js';

/** @typedef {import('./hub.js').Hub} Hub */
/** @typedef {ReturnType<typeof import('./study-host.js').createStudyHost>} StudyHost */
/** @typedef {ReturnType<typeof import('./winds-choice.js').mountChoice>} Choosing */
/** @typedef {import('./study-work.js').MapPicture} MapPicture */
/** @typedef {{from_deg: number, kt: number}} Wind Magnetic, from. */

/** Of the finest map: no line and no edge looks stepped. */
const FINEST = 2;
/** The scene's wind where the map is the same in any. */
const ANY_WIND = '360/10';

/** A finger that moves farther does not tap. */
const TAP_PX = 12;

/** Keys at the point: what they add to direction and speed. @type {Map<string, [deg: number, kt: number]>} */
const KEYS = new Map([['ArrowRight', [5, 0]], ['ArrowLeft', [-5, 0]], ['ArrowUp', [0, 1]], ['ArrowDown', [0, -1]],
  ['PageUp', [0, 10]], ['PageDown', [0, -10]], ['Home', [0, -Infinity]], ['End', [0, Infinity]]]);

/** The scene with another wind. @param {string} link @param {string} wind */
const withWind = (link, wind) => [...link.split('&').filter((pair) => pair && !pair.startsWith('wind=')), `wind=${wind}`].join('&');

/** @param {Hub} hub @param {StudyHost} host @param {Choosing} choice */
export function mountChart(hub, host, choice) {
  const { session } = hub;
  const map = byId('winds-map', HTMLElement);
  const canvas = byId('winds-canvas', HTMLCanvasElement);
  const point = byId('winds-point', HTMLElement);
  const tag = byId('winds-tag', HTMLElement);
  const at = byId('winds-at', HTMLElement);
  const blows = byId('winds-blows', SVGSVGElement);
  const showLines = patcher(byId('winds-lines', HTMLElement));
  const showShare = patcher(byId('winds-share', HTMLElement));
  const showKey = patcher(byId('winds-key', HTMLElement));
  let opened = false;
  /** The scene's, as it was last told: to ask for its report works all of it out. */
  let { fields } = session.report();
  /** @type {MapPicture | null} */
  let picture = null;
  /** From a direction as the scene has it to magnetic. */
  let to_magnetic = 0;
  /** Held by hand: how far the wind is from the pointer, and the wind once it was moved. @type {{id: number, x: number, y: number, wind: Wind | null} | null} */
  let held = null;
  /** A finger that may be tapping. @type {{id: number, x: number, y: number} | null} */
  let tapping = null;
  /** Under the pointer. @type {Wind | null} */
  let looked_at = null;
  /** The map's sentence is told once the map is whole. */
  let untold = false;

  /** Of the map that is shown. */
  const frame = () => ({ size: map.clientWidth, most_kt: picture?.info.most_kt ?? choice.choice().most_kt });
  const wantedChoice = () => ({ ...choice.choice(), finest: FINEST });

  /** @returns {Wind} */
  function wind() {
    const [from, kt] = fields.wind.split('/').map(Number);
    return { from_deg: from + to_magnetic, kt };
  }

  /** @param {Wind} to @param {boolean} midway */
  function setWind(to, midway) {
    if (isFixed('wind')) return;
    hub.change(session.set('wind', `${direction(to.from_deg - to_magnetic)}/${to.kt}`, midway), { midway });
  }

  function ask() {
    const { size } = frame();
    if (!opened || size === 0) return;
    const wanted = wantedChoice();
    const is_todays = wanted.plan === 'own' || wanted.less === 'own';
    host.map({
      link: withWind(session.link(), is_todays ? fields.wind : ANY_WIND),
      choice: wanted,
      size_px: Math.min(MOST_PX, Math.round((size - 2 * MARGIN_PX) * devicePixelRatio)),
      theme: THEMES[paintedTheme()],
    });
    showWind();
  }

  /** What stands over the map, for the page or a file. @param {MapPicture} of @param {import('./markup.js').Element[]} [under] */
  function over({ info, lines }, under) {
    const { inbound, turns } = fields;
    // The best rule's miss jumps where another takes over: lines there would mean nothing.
    const drawn = info.plan === 'best' && !info.less ? new Float32Array() : lines;
    return overlay(frame(), drawn, {
      middle: info.middle,
      hold: { inbound_deg: Number(inbound), is_right: turns === 'right' },
      words: {
        knots: (kt) => say('page.winds.knots', { kt }),
        directions: ['north', 'east', 'south', 'west'].map((name) => say(`page.winds.${name}`)),
        level: (level) => levelWords(info.mapped, level),
      },
    }, under);
  }

  /** @param {MapPicture} made */
  function show(made) {
    if (!opened) return;
    picture = made;
    const { info, wanted, pixels } = made;
    const asked_from = Number(/(?:^|&)wind=([\d.]+)/.exec(wanted.link)?.[1]);
    to_magnetic = info.wind.from_deg - asked_from;
    if (canvas.width !== wanted.size_px) canvas.width = canvas.height = wanted.size_px;
    canvas.getContext('2d')?.putImageData(new ImageData(pixels, wanted.size_px), 0, 0);
    map.dataset.about = `${info.mapped} ${info.plan}`;
    map.dataset.directions = String(info.directions);
    map.dataset.whole = String(made.whole);
    showLines([over(made)]);
    const { before, share, after, whole: sentence } = shareWords(info);
    showShare([el('span', {}, before, el('strong', {}, share), after)]);
    showKey(keyTrees(made));
    showWind();
    if (!made.whole || !untold || JSON.stringify(wanted.choice) !== JSON.stringify(wantedChoice())) return;
    untold = false;
    announce(sentence);
  }

  /** The point, and what its wind or that under the pointer comes to. */
  function showWind() {
    if (!picture) return;
    const now = wind();
    const { size, most_kt } = frame();
    const kt = Math.min(now.kt, most_kt);
    const [x, y] = placeOf({ size, most_kt }, now.from_deg, kt);
    point.style.left = tag.style.left = `${(100 * x) / size}%`;
    point.style.top = tag.style.top = `${(100 * y) / size}%`;
    blows.setAttribute('viewBox', `0 0 ${size} ${size}`);
    // Toward the middle there is more room.
    tag.style.transform = `translate(${x > size / 2 ? 'calc(-100% - 14px)' : '14px'}, -50%)`;
    write(tag, say('page.winds.tag', { from: direction(now.from_deg), kt: whole(now.kt) }));
    for (const line of blows.children) {
      for (const [name, value] of Object.entries({ x1: x, y1: y, x2: size / 2, y2: size / 2 })) line.setAttribute(name, value.toFixed(1));
    }
    point.setAttribute('aria-valuemax', String(most_kt));
    point.setAttribute('aria-valuenow', String(kt));
    sayValue(now);
  }

  /** @param {Wind} now */
  async function sayValue(now) {
    const of = picture;
    const look = looked_at;
    const winds = [now, ...(look ? [look] : [])];
    const { about, values } = await host.values(winds.map(({ from_deg, kt }) => [from_deg, kt]));
    // Another wind, or another map, has come meanwhile, and says itself.
    const newest = wind();
    if (of === null || of !== picture || look !== looked_at || newest.from_deg !== now.from_deg || newest.kt !== now.kt) return;
    const words = winds.map(({ from_deg, kt }, i) => windWords(about, from_deg, kt, values[i]));
    point.setAttribute('aria-valuetext', words[0]);
    write(at, words[words.length - 1]);
  }

  /** @param {PointerEvent} event */
  function place(event) {
    const box = map.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  }

  /** @param {number} x @param {number} y */
  const windUnder = (x, y) => windAt(frame(), x, y);

  /** @param {Wind | null} to */
  function lookAt(to) {
    if (to?.from_deg === looked_at?.from_deg && to?.kt === looked_at?.kt) return;
    looked_at = to;
    showWind();
  }

  /** @param {PointerEvent} event */
  function letGo(event) {
    tapping = null;
    if (held?.id !== event.pointerId) return;
    // The same wind once more: what follows is another step to undo.
    if (held.wind) setWind(held.wind, false);
    held = null;
    hub.hold(false);
  }

  map.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 || held || !picture || isFixed('wind')) return;
    const on_point = event.target === point;
    const { x, y } = place(event);
    if (!on_point && !windUnder(x, y).on_map) return;
    if (!on_point && event.pointerType === 'touch') {
      // It may be scrolling the page.
      tapping = { id: event.pointerId, x, y };
      return;
    }
    event.preventDefault();
    point.focus({ preventScroll: true });
    const now = wind();
    const [px, py] = on_point ? placeOf(frame(), now.from_deg, Math.min(now.kt, frame().most_kt)) : [x, y];
    held = { id: event.pointerId, x: px - x, y: py - y, wind: on_point ? null : windUnder(x, y) };
    map.setPointerCapture(event.pointerId);
    hub.hold(true);
    lookAt(null);
    if (held.wind) setWind(held.wind, true);
  });
  map.addEventListener('pointermove', (event) => {
    const { x, y } = place(event);
    if (held?.id === event.pointerId) {
      held.wind = windUnder(x + held.x, y + held.y);
      setWind(held.wind, true);
    } else if (event.pointerType !== 'touch' && !held) {
      const under = windUnder(x, y);
      lookAt(under.on_map && event.target !== point ? under : null);
    }
  });
  map.addEventListener('pointerup', (event) => {
    const { x, y } = place(event);
    if (tapping?.id === event.pointerId && Math.hypot(x - tapping.x, y - tapping.y) <= TAP_PX) setWind(windUnder(x, y), false);
    letGo(event);
  });
  map.addEventListener('pointercancel', letGo);
  map.addEventListener('pointerleave', () => lookAt(null));
  point.addEventListener('keydown', (event) => {
    const by = KEYS.get(event.key);
    if (!by || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    // There may be several in one frame.
    ({ fields } = session.report());
    const now = wind();
    const [deg, kt] = event.shiftKey ? by.map((step) => Math.sign(step)) : by;
    // A wind that is too strong for the map is made no stronger, and no weaker but by a step.
    setWind({ from_deg: now.from_deg + deg, kt: Math.min(Math.max(0, now.kt + kt), Math.max(now.kt, frame().most_kt)) }, false);
  });

  /** Of a file. @param {import('./study.mjs').MapInfo} info */
  const nameOf = ({ mapped, plan }) => `map-${mapped}-${plan}`;
  byId('winds-csv', HTMLButtonElement).addEventListener('click', async () => {
    if (!picture) return;
    const winds = tableWinds(picture.info.most_kt);
    const { about, values } = await host.values(winds);
    download(tableText(say(`page.winds.csv.${about.less ? 'less' : about.mapped}`), winds, values), `${nameOf(about)}.csv`, 'text/csv');
  });
  byId('winds-svg', HTMLButtonElement).addEventListener('click', () => {
    const of = picture;
    if (!of) return;
    const { info } = of;
    const { inbound, turns } = fields;
    const title = say('page.winds.title', { plan: planName(info.plan), mapped: say(`page.winds.mapped.${info.mapped}`),
      inbound: direction(Number(inbound)), turns: say(`page.field.turns.${turns}`), kt: whole(info.most_kt) });
    download(mapSvg(map.clientWidth, canvas, (under) => over(of, under), title, [title, shareWords(info).whole, say('page.caution')]),
      `${nameOf(info)}.svg`, 'image/svg+xml');
  });

  new ResizeObserver(ask).observe(map);
  point.setAttribute('aria-disabled', String(isFixed('wind')));

  return {
    ask,
    show,
    /** @param {import('./types').Evaluation} report */
    scenario(report) {
      ({ fields } = report);
      byId('winds-offset', HTMLElement).hidden = report.entry.kind === 'offset';
      ask();
    },
    /** The sentence of the next whole map is told. */
    tellNext() {
      untold = true;
    },
    open() {
      opened = true;
      ({ fields } = session.report());
      ask();
    },
    close() {
      opened = false;
      picture = null;
      host.rest('map');
    },
  };
}
