// The view "Displays": what a course needle and a bearing pointer show at this moment of the
// flight, and the moments at which they change.
import { mountDials } from './dials.js';
import { byId, write } from './dom.js';
import { clock, direction, known, whole } from './format.js';
import { el } from './markup.js';
import { paragraphs, part } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').Needle} Needle */
/** @typedef {import('./types').Displays} Displays */

/** "40 % right, TO". @param {Needle} needle */
export function courseWords({ deflection, flag, reliable }) {
  if (!reliable) return say('page.displays.course.unreliable');
  const percent = Math.round(Math.abs(deflection) * 100);
  const side = percent === 0 ? 'middle' : percent >= 100 ? (deflection > 0 ? 'full_right' : 'full_left')
    : deflection > 0 ? 'right' : 'left';
  return say(`page.displays.course.${side}`, { percent, flag: say(`page.displays.flag.${flag}`) });
}

/** "238° to the station, 120° from the nose, 4.2 DME". @param {Needle} needle */
export function bearingWords({ bearing_deg, relative_deg, dme_nm }) {
  const pointer = known(bearing_deg) && known(relative_deg)
    ? say('page.displays.bearing', { bearing: direction(bearing_deg), relative: direction(relative_deg) })
    : say('page.displays.bearing.none');
  return known(dme_nm) ? say('page.displays.dme', { bearing: pointer, nm: dme_nm.toFixed(1) }) : pointer;
}

/** @param {Displays} displays */
const moments = (displays) => (displays.moments ?? []).map(({ label, at_s }) => el('li', {},
  el('button', { type: 'button', class: 'moment', 'data-at': String(at_s) },
    el('span', { class: 'moment-time' }, clock(at_s)), el('span', {}, label))));

/**
 * @param {import('./hub.js').Hub} hub
 * @returns {import('./panels.js').Panel}
 */
export function displaysPanel(hub) {
  const { session } = hub;
  const section = byId('needles', HTMLElement);
  const words = byId('needle-words', HTMLElement);
  const list = byId('moments', HTMLElement);
  const dials = mountDials(byId('dials', HTMLElement));
  const showMoments = part('moments');
  const showWords = part('displays-words');

  list.addEventListener('click', (event) => {
    const button = event.target instanceof Element ? event.target.closest('button') : null;
    if (button) hub.change(session.seek(Number(button.getAttribute('data-at'))));
  });

  return {
    scenario({ displays, station }) {
      showMoments(displays ? moments(displays) : []);
      showWords(paragraphs(displays?.scale_label, displays?.cone_words, displays?.words, station?.words));
    },
    clock({ needle }) {
      section.hidden = !needle;
      if (!needle) return;
      dials.course(needle.deflection, needle.reliable, courseWords(needle));
      dials.bearing(needle.relative_deg, needle.reliable, bearingWords(needle));
      write(words, needle.words ?? '');
    },
  };
}
