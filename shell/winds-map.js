// What stands over a map of all winds: rings, directions, the hold, contour lines with their
// numbers. As element trees, for the page and for the file alike. Positions in CSS px.
import { el } from './markup.js';

/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {{size: number, most_kt: number}} Frame The map's square, and the strongest wind. */
/** @typedef {{level: number, closed: boolean, points: [x: number, y: number][]}} Line */

/** Around the disc, for the letters of the directions. */
export const MARGIN_PX = 20;
/** Points nearer than this to the one before are left out of a drawn line. */
const STEP_PX = 0.7;
/** A number stands only where it is this far from others, on a line at least this long. */
const APART_PX = 34;
const LEAST_LINE_PX = 60;
const CANDIDATES = 24;

/** @param {Frame} frame */
export const radiusOf = ({ size }) => size / 2 - MARGIN_PX;

/** Where a wind stands. @param {Frame} frame @param {number} from_deg @param {number} kt @returns {[x: number, y: number]} */
export function placeOf(frame, from_deg, kt) {
  const r = (kt / frame.most_kt) * radiusOf(frame);
  const angle = (from_deg * Math.PI) / 180;
  return [frame.size / 2 + r * Math.sin(angle), frame.size / 2 - r * Math.cos(angle)];
}

/** The wind at a place, whole degrees and knots, no stronger than the map's strongest. @param {Frame} frame @param {number} x @param {number} y */
export function windAt(frame, x, y) {
  const east = x - frame.size / 2;
  const north = frame.size / 2 - y;
  const kt = Math.min(frame.most_kt, Math.round((Math.hypot(east, north) / radiusOf(frame)) * frame.most_kt));
  const deg = Math.round((Math.atan2(east, north) * 180) / Math.PI);
  return { from_deg: deg <= 0 ? deg + 360 : deg, kt, on_map: Math.hypot(east, north) <= radiusOf(frame) };
}

/** Takes apart what Study's lines() gives: points as they are there. @param {Float32Array} all @returns {Line[]} */
export function linesIn(all) {
  const lines = [];
  for (let at = 0; at < all.length;) {
    const [level, closed, count] = all.subarray(at, at + 3);
    at += 3;
    /** @type {[number, number][]} */
    const points = [];
    for (const end = at + 2 * count; at < end; at += 2) points.push([all[at], all[at + 1]]);
    // The level as it was given: a float has its own idea of a tenth.
    lines.push({ level: Number(level.toPrecision(6)), closed: closed === 1, points });
  }
  return lines;
}

/** The map's lines where they are drawn. @param {Float32Array} all @param {Frame} frame @returns {Line[]} */
function drawnLines(all, frame) {
  const scale = radiusOf(frame) / frame.most_kt;
  return linesIn(all).map((line) => {
    /** @type {[number, number][]} */
    const points = [];
    for (const [east, north] of line.points) {
      const [x, y] = [frame.size / 2 + east * scale, frame.size / 2 - north * scale];
      const before = points.at(-1);
      if (!before || Math.hypot(x - before[0], y - before[1]) >= STEP_PX) points.push([x, y]);
    }
    return { ...line, points };
  });
}

const px = (/** @type {number} */ x) => x.toFixed(1);

/** @param {Line} line */
const pathOf = ({ points, closed }) =>
  `M${points.map(([x, y]) => `${px(x)} ${px(y)}`).join('L')}${closed ? 'Z' : ''}`;

/** @param {[number, number][]} points */
const lengthOf = (points) => points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i][0], y - points[i][1]), 0);

/**
 * Rings are as far apart as this. @param {number} most_kt
 */
export const ringStep = (most_kt) => (most_kt <= 15 ? 5 : most_kt <= 60 ? 10 : most_kt <= 100 ? 20 : 30);

/** @param {number} x @param {number} y @param {string} kind @param {string} text */
const label = (x, y, kind, text) => el('text', { class: `m-label m-${kind}`, x: px(x), y: px(y), dy: '0.36em', 'text-anchor': 'middle' }, text);

/**
 * @param {Frame} frame
 * @param {{inbound_deg: number, is_right: boolean}} hold
 * @param {{knots: (kt: number) => string, directions: string[]}} words `directions`: N, E, S, W.
 */
function background(frame, hold, words) {
  const { size, most_kt } = frame;
  const middle = size / 2;
  const radius = radiusOf(frame);
  const step = ringStep(most_kt);
  /** @type {Tree[]} */
  const rings = [];
  /** @type {Tree[]} */
  const labels = [];
  /** @type {[number, number][]} */
  const taken = [];
  for (let kt = step; kt <= most_kt; kt += step) {
    rings.push(el('circle', { class: 'm-ring', cx: px(middle), cy: px(middle), r: px((kt / most_kt) * radius) }));
    if ((kt / step) % 2 !== 0 || kt === most_kt) continue;
    const at = placeOf(frame, 45, kt);
    taken.push(at);
    labels.push(label(at[0], at[1], 'knots', words.knots(kt)));
  }
  const at = placeOf(frame, 45, most_kt);
  taken.push(at);
  labels.push(label(at[0], at[1], 'knots', words.knots(most_kt)));
  rings.push(el('circle', { class: 'm-rim', cx: px(middle), cy: px(middle), r: px(radius) }));
  for (let deg = 0; deg < 360; deg += 30) {
    const [x1, y1] = placeOf({ ...frame, most_kt: radius }, deg, radius);
    const [x2, y2] = placeOf({ ...frame, most_kt: radius }, deg, radius + (deg % 90 === 0 ? 6 : 4));
    rings.push(el('line', { class: 'm-tick', x1: px(x1), y1: px(y1), x2: px(x2), y2: px(y2) }));
  }
  words.directions.forEach((name, i) => {
    const [x, y] = placeOf({ ...frame, most_kt: radius }, 90 * i, radius + MARGIN_PX / 2 + 3);
    labels.push(label(x, y, 'direction', name));
  });
  return { rings: [...rings, racetrack(middle, radius, hold)], labels, taken };
}

/** The hold, its fix in the middle: for orientation alone, to no scale. @param {number} middle @param {number} radius @param {{inbound_deg: number, is_right: boolean}} hold */
function racetrack(middle, radius, { inbound_deg, is_right }) {
  const leg = 0.34 * radius;
  const turn = 0.1 * radius;
  const side = is_right ? 1 : -1;
  const round = `A${px(turn)} ${px(turn)} 0 0 ${is_right ? 1 : 0}`;
  return el('g', { class: 'm-hold', transform: `translate(${px(middle)} ${px(middle)}) rotate(${px(inbound_deg)})` },
    el('path', { d: `M0 ${px(leg)}L0 0${round} ${px(2 * turn * side)} 0L${px(2 * turn * side)} ${px(leg)}${round} 0 ${px(leg)}Z` }),
    el('path', { class: 'm-arrow', d: `M0 0l-4 9l4 -2l4 2Z` }));
}

/**
 * Numbers of the lines, each level once, where there is room.
 * @param {Line[]} lines @param {(level: number) => string} say @param {[number, number][]} taken @param {Frame} frame
 */
function numbers(lines, say, taken, frame) {
  /** @type {Map<number, Line>} */
  const longest = new Map();
  for (const line of lines) {
    const other = longest.get(line.level);
    if (!other || lengthOf(line.points) > lengthOf(other.points)) longest.set(line.level, line);
  }
  const middle = frame.size / 2;
  const places = [...taken];
  /** @type {Tree[]} */
  const labels = [];
  for (const [level, { points }] of longest) {
    const text = say(level);
    if (!text || lengthOf(points) < LEAST_LINE_PX) continue;
    let best = APART_PX;
    /** @type {[number, number] | null} */
    let at = null;
    for (let i = 1; i <= CANDIDATES; i += 1) {
      const p = points[Math.floor((i / (CANDIDATES + 1)) * points.length)];
      if (Math.hypot(p[0] - middle, p[1] - middle) > radiusOf(frame) - 14) continue;
      const apart = Math.min(...places.map(([x, y]) => Math.hypot(x - p[0], y - p[1])), 3 * APART_PX);
      if (apart <= best) continue;
      best = apart;
      at = p;
    }
    if (!at) continue;
    places.push(at);
    labels.push(label(at[0], at[1], 'number', text));
  }
  return labels;
}

/**
 * @param {Frame} frame
 * @param {Float32Array} lines As Study's map.lines().
 * @param {object} about
 * @param {number} about.middle Lines of less than this are dashed.
 * @param {{inbound_deg: number, is_right: boolean}} about.hold
 * @param {{knots: (kt: number) => string, directions: string[], level: (level: number) => string}} about.words
 * @param {Tree[]} [under] First in the picture.
 */
export function overlay(frame, lines, { middle, hold, words }, under = []) {
  const all = drawnLines(lines, frame);
  const { rings, labels, taken } = background(frame, hold, words);
  const paths = (/** @type {(line: Line) => boolean} */ is) => all.filter((line) => line.points.length > 1 && is(line)).map(pathOf).join('');
  return el('svg', { xmlns: 'http://www.w3.org/2000/svg', width: String(frame.size), height: String(frame.size), viewBox: `0 0 ${frame.size} ${frame.size}` },
    ...under, ...rings,
    el('path', { class: 'm-line', d: paths(({ level }) => level >= middle) }),
    el('path', { class: 'm-line m-below', d: paths(({ level }) => level < middle) }),
    ...labels, ...numbers(all, words.level, taken, frame));
}
