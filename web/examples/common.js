// What both examples use.

/** @template {Element} T @param {string} id @param {{new(): T}} kind @returns {T} */
export function byId(id, kind) {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`no ${id}`);
  return found;
}

/** Three digits; north is 360. @param {number} deg */
export const direction = (deg) => `${String(Math.round(deg) % 360 || 360).padStart(3, '0')}°`;

/** Nearer than this is on course. */
const ON_COURSE_NM = 0.05;

/** A miss in miles: + is the holding side, − is beyond the inbound course. @param {number} nm */
export const miss = (nm) => (Math.abs(nm) < ON_COURSE_NM ? 'on course' : `${Math.abs(nm).toFixed(1)} ${nm < 0 ? 'past' : 'short'}`);
