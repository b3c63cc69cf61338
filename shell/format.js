// Numbers as pilots read them. Every function answers '–' where there is no number.
const NONE = '\u2013';

/** @param {number | null | undefined} x @returns {x is number} */
export const known = (x) => typeof x === 'number' && Number.isFinite(x);

/** Three digits, 360 rather than 000; no sign. @param {number | null | undefined} deg */
export function direction(deg) {
  if (!known(deg)) return NONE;
  const whole = ((Math.round(deg) % 360) + 360) % 360;
  return String(whole === 0 ? 360 : whole).padStart(3, '0');
}

/** The same with its sign. @param {number | null | undefined} deg */
export const degrees = (deg) => (known(deg) ? `${direction(deg)}°` : NONE);

/** m:ss, with a minus sign before the fix. @param {number | null | undefined} seconds */
export function clock(seconds) {
  if (!known(seconds)) return NONE;
  const whole = Math.round(Math.abs(seconds));
  const sign = seconds < 0 && whole > 0 ? '\u2212' : '';
  return `${sign}${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** One decimal, no sign. @param {number | null | undefined} nm */
export const miles = (nm) => (known(nm) ? Math.abs(nm).toFixed(1) : NONE);

/** Whole number, no sign. @param {number | null | undefined} x */
export const whole = (x) => (known(x) ? String(Math.round(Math.abs(x))) : NONE);
