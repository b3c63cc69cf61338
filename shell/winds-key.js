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

/** @typedef {Pick<MapPicture, 'info' | 'colours'>} Keyed */

/** Whether the colours are those of rules, not of a scale. @param {Keyed} picture */
export const hasRules = ({ info }) => info.rules.length > 0 && !info.less;

/** @param {Keyed} picture @param {boolean} with_shares */
function rules({ info, colours }, with_shares) {
  return [el('ul', { class: 'winds-rules' }, ...info.rules.map((share, i) => el('li', {}, swatch(colours.rules[i]),
    el('span', {}, planName(PLANS[i])), ...(with_shares ? [el('strong', {}, percent(share))] : []))))];
}

/** The scale as a bar of colours, the numbers at its marks, and what its ends mean. @param {Keyed} picture */
export function scaleOf({ info, colours }) {
  const one_side = info.mapped === 'intercept' || info.mapped === 'laps';
  const scale = one_side ? colours.scale.slice(colours.scale.length >> 1) : colours.scale;
  const step = WIDE / scale.length;
  const kind = info.less ? 'less' : info.mapped;
  return {
    bar: el('svg', { class: 'winds-scale', viewBox: `0 0 ${WIDE} ${HIGH}`, preserveAspectRatio: 'none', 'aria-hidden': 'true', focusable: 'false' },
      // A little over the next one: no seams.
      ...scale.map((colour, i) => el('path', { d: `M${i * step} 0H${Math.min(WIDE, (i + 1) * step + 0.5)}V${HIGH}H${i * step}Z`, fill: colour }))),
    marks: (one_side ? ONE_SIDE : BOTH_SIDES).map((at) => levelWords(info.mapped, info.middle + at * info.reach)),
    ends: [say(`page.winds.key.${kind}.low`), say(`page.winds.key.${kind}.high`)],
  };
}

/** @param {Keyed} picture @param {boolean} [with_shares] Of the rules, in this map. */
export function keyTrees(picture, with_shares = true) {
  if (hasRules(picture)) return rules(picture, with_shares);
  const { bar, marks, ends } = scaleOf(picture);
  return [bar, el('div', { class: 'winds-marks', 'aria-hidden': 'true' }, ...marks.map((mark) => el('span', {}, mark))),
    el('div', { class: 'winds-ends', 'aria-hidden': 'true' }, ...ends.map((end) => el('span', {}, end)))];
}
