// The key of a map over all winds: its colours with numbers; with the best rule of each wind the
// four rules with their shares.
import { el } from './markup.js';
import { say } from './text.js';
import { PLANS, levelWords, percent, planName } from './winds-words.js';

/** @typedef {import('./study-work.js').MapPicture} MapPicture */

/** Size of the scale's own units; it is stretched to the room there is. */
const WIDE = 320;
const HIGH = 12;

/** Values at the scale's marks, in reaches from its middle. */
const BOTH_SIDES = [-1, -0.5, 0, 0.5, 1];
const ONE_SIDE = [0, 1 / 3, 2 / 3, 1];

/** @param {string} colour */
const swatch = (colour) => el('svg', { class: 'winds-swatch', viewBox: '0 0 18 12', 'aria-hidden': 'true', focusable: 'false' },
  el('path', { d: 'M0 0H18V12H0Z', fill: colour }));

/** @param {MapPicture} picture */
function rules({ info, colours }) {
  return [el('ul', { class: 'winds-rules' }, ...info.rules.map((share, i) => el('li', {}, swatch(colours.rules[i]),
    el('span', {}, planName(PLANS[i])), el('strong', {}, percent(share)))))];
}

/** @param {MapPicture} picture */
export function keyTrees(picture) {
  const { info, colours } = picture;
  if (info.rules.length && !info.less) return rules(picture);
  const one_side = info.mapped === 'intercept' || info.mapped === 'laps';
  const scale = one_side ? colours.scale.slice(colours.scale.length >> 1) : colours.scale;
  const step = WIDE / scale.length;
  const bar = el('svg', { class: 'winds-scale', viewBox: `0 0 ${WIDE} ${HIGH}`, preserveAspectRatio: 'none', 'aria-hidden': 'true', focusable: 'false' },
    // A little over the next one: no seams.
    ...scale.map((colour, i) => el('path', { d: `M${i * step} 0H${Math.min(WIDE, (i + 1) * step + 0.5)}V${HIGH}H${i * step}Z`, fill: colour })));
  const marks = el('div', { class: 'winds-marks', 'aria-hidden': 'true' }, ...(one_side ? ONE_SIDE : BOTH_SIDES).map((at) =>
    el('span', {}, levelWords(info.mapped, info.middle + at * info.reach))));
  const kind = info.less ? 'less' : info.mapped;
  const ends = el('div', { class: 'winds-ends', 'aria-hidden': 'true' }, el('span', {}, say(`page.winds.key.${kind}.low`)), el('span', {}, say(`page.winds.key.${kind}.high`)));
  return [bar, marks, ends];
}
