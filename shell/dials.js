// Two dials in our own plain drawing: the course needle and the bearing pointer. Drawn once;
// what moves is one line and one arrow.
import { el, toNode } from './markup.js';

/** Half the width of the needle's scale, in units of the drawing, at full deflection. */
const SCALE = 40;
const DOTS = 5;
const RING = 52;

/** @param {number} n @param {(i: number) => import('./markup.js').Element} make */
const many = (n, make) => Array.from({ length: n }, (_, i) => make(i));

/** @param {...import('./markup.js').Element} marks */
const dial = (...marks) => el('svg', { class: 'dial', viewBox: '-60 -60 120 120', role: 'img', focusable: 'false' },
  el('circle', { class: 'dial-ring', r: String(RING) }), ...marks);

/** A dot for each step of the scale either side of the middle; the needle stands over them. */
const courseDial = () => dial(
  ...many(DOTS, (i) => el('g', {}, ...[-1, 1].map((side) =>
    el('circle', { class: 'dial-dot', r: '2', cx: String((side * SCALE * (i + 1)) / DOTS) })))),
  el('circle', { class: 'dial-middle', r: '6' }),
  el('line', { class: 'dial-needle', y1: '-38', y2: '38' }));

/** The nose is at the top; marks every 30°. */
const bearingDial = () => dial(
  ...many(12, (i) => el('line', { class: 'dial-tick', y1: String(-RING), y2: String(i % 3 ? -47 : -43),
    transform: `rotate(${30 * i})` })),
  el('path', { class: 'dial-nose', d: 'M0 -40l5 8h-10z' }),
  el('g', { class: 'dial-pointer' },
    el('line', { y1: '34', y2: '-18' }), el('path', { d: 'M0 -30l7 13h-14z' })));

/**
 * @typedef {object} Dials
 * @property {(deflection: number, reliable: boolean, words: string) => void} course
 *   Share of full scale, + right.
 * @property {(relative_deg: number | null, reliable: boolean, words: string) => void} bearing
 *   From the nose, clockwise.
 */

/**
 * Puts both dials into `place`, each with its words under it.
 * @param {Element} place
 * @returns {Dials}
 */
export function mountDials(place) {
  const [course, bearing] = [courseDial(), bearingDial()].map((tree) => {
    const figure = document.createElement('figure');
    const svg = /** @type {SVGSVGElement} */ (toNode(tree));
    const caption = document.createElement('figcaption');
    // The drawing is named by the words: they need not be read twice.
    caption.setAttribute('aria-hidden', 'true');
    figure.append(svg, caption);
    place.append(figure);
    /** @param {string} part @param {string} transform @param {boolean} reliable @param {string} words */
    return (part, transform, reliable, words) => {
      const moving = svg.querySelector(part);
      if (moving?.getAttribute('transform') !== transform) moving?.setAttribute('transform', transform);
      svg.classList.toggle('dial-unreliable', !reliable);
      if (svg.getAttribute('aria-label') === words) return;
      svg.setAttribute('aria-label', words);
      caption.textContent = words;
    };
  });
  return {
    course(deflection, reliable, words) {
      course('.dial-needle', `translate(${(SCALE * deflection).toFixed(1)} 0)`, reliable, words);
    },
    bearing(relative_deg, reliable, words) {
      bearing('.dial-pointer', `rotate(${(relative_deg ?? 0).toFixed(1)})`, reliable && relative_deg !== null, words);
    },
  };
}
