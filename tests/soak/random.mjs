// Chance that can be had again by its seed.

/** @typedef {ReturnType<typeof chance>} Chance */

/** Mulberry32: 32 bits of state, public domain. @param {number} seed */
export function chance(seed) {
  let state = seed >>> 0;
  function next() {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  }
  return {
    next,
    /** @param {number} low @param {number} high Both are among them. */
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
    /** @template T @param {readonly T[]} all @returns {T} */
    one: (all) => all[Math.floor(next() * all.length)],
    /** @template T @param {readonly (readonly [weight: number, what: T])[]} all @returns {T} */
    weighed(all) {
      let left = next() * all.reduce((sum, [weight]) => sum + weight, 0);
      return (all.find(([weight]) => (left -= weight) < 0) ?? all[all.length - 1])[1];
    },
  };
}
