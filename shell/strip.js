// The instrument strip: what the aircraft does at this moment.
import { byId, write } from './dom.js';
import { clock, direction, miles, whole } from './format.js';
import { missKind } from './outcome-markup.js';
import { say } from './text.js';

/** @param {number} drift_deg */
function drift(drift_deg) {
  const side = Math.round(drift_deg) === 0 ? 'none' : drift_deg > 0 ? 'right' : 'left';
  return say(`page.drift.${side}`, { deg: whole(drift_deg) });
}

/** @param {import('./hub.js').Hub} hub */
export function mountStrip(hub) {
  const cells = Object.fromEntries(
    ['heading', 'track', 'groundspeed', 'time', 'off', 'drift']
      .map((name) => [name, byId(`strip-${name}`, HTMLElement)]));
  hub.add({
    clock(live) {
      // Nothing is flown: there is nothing to read.
      if (live.end_s <= live.start_s && live.groundspeed_kt === 0) {
        for (const cell of Object.values(cells)) write(cell, say('page.off.none'));
        return;
      }
      write(cells.heading, `${direction(live.heading_deg)}°`);
      write(cells.track, `${direction(live.track_deg)}°`);
      write(cells.groundspeed, say('page.knots', { kt: whole(live.groundspeed_kt) }));
      write(cells.time, clock(live.t_s));
      const off = missKind(live.cross_nm);
      write(cells.off, say(`page.off.${off}`, { nm: miles(live.cross_nm) }));
      write(cells.drift, drift(live.drift_deg));
    },
  });
}
