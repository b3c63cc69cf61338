// A drawing as an SVG file that needs nothing beside it: the page's colours as they stand, its
// letters where they are installed, and sentences below.
import { el, toHtml } from './markup.js';

/** @typedef {import('./markup.js').Element} Tree */
/** @typedef {{ink: string, paper: string, quiet: string}} Inks */

const LINE_PX = 18;
/** A letter is about so wide, in the widest of letters that there may be. */
const LETTER_PX = 7.5;

/** @returns {Inks} */
function inksNow() {
  const page = getComputedStyle(document.documentElement);
  const [ink, paper, quiet] = ['--ink', '--paper', '--quiet'].map((name) => page.getPropertyValue(name).trim());
  return { ink, paper, quiet };
}

/** Words in lines of about so many letters. @param {string} text @param {number} letters */
function lines(text, letters) {
  /** @type {string[]} */
  const made = [''];
  for (const word of text.split(' ')) {
    const last = made[made.length - 1];
    if (last && last.length + word.length >= letters) made.push(word);
    else made[made.length - 1] = last ? `${last} ${word}` : word;
  }
  return made;
}

/**
 * @param {object} drawing
 * @param {number} drawing.width
 * @param {number} drawing.height Without the sentences.
 * @param {string} drawing.title
 * @param {(inks: Inks) => string} drawing.style Rules of its own.
 * @param {Tree[]} drawing.trees
 * @param {string[]} drawing.said Sentences below it.
 */
export function svgFile({ width, height, title, style, trees, said }) {
  const inks = inksNow();
  const rows = said.flatMap((sentence) => lines(sentence, width / LETTER_PX));
  const whole = height + 12 + LINE_PX * rows.length;
  const tree = el('svg', { xmlns: 'http://www.w3.org/2000/svg', width: String(width), height: String(whole), viewBox: `0 0 ${width} ${whole}` },
    el('title', {}, title),
    el('style', {}, `text{font:12px "Lesson Text",system-ui,sans-serif;fill:${inks.ink}}.paper{fill:${inks.paper}}${style(inks)}`),
    el('path', { class: 'paper', d: `M0 0H${width}V${whole}H0Z` }),
    ...trees,
    ...rows.map((row, i) => el('text', { x: '8', y: String(height + 12 + LINE_PX * i) }, row)));
  // Quotes within the style sheet are no markup there.
  return toHtml(tree).replace(/<style>.*?<\/style>/s, (rules) => rules.replaceAll('&quot;', '"'));
}
