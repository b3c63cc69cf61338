// The one polite live region: events while it flies, results once a change has settled.
import { isHidden } from './instructor.js';

/** Results wait until no further change comes for this long. */
const RESULT_AFTER_MS = 700;

/** @typedef {import('./hub.js').Hub} Hub */

/** @param {string} text */
export function announce(text) {
  const region = document.getElementById('live');
  if (!region) return;
  // The same words twice are only heard if the region was empty in between.
  region.textContent = '';
  requestAnimationFrame(() => { region.textContent = text; });
}

/** @param {Hub} hub */
export function mountAnnouncements(hub) {
  const { session } = hub;
  let phase = session.live().phase;
  let was_playing = false;
  let timer = 0;
  hub.add({
    clock(live) {
      if (live.phase !== phase && (live.playing || was_playing)) {
        const event = session.report().events.find((e) => e.name === live.phase);
        if (event) announce(event.label);
      }
      phase = live.phase;
      was_playing = live.playing;
    },
    settled(report) {
      clearTimeout(timer);
      if (hub.asking() || isHidden('outcome')) return;
      timer = window.setTimeout(() => {
        announce(report.outcome);
      }, RESULT_AFTER_MS);
    },
  });
}
