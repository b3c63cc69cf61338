// Hands on the picture: a mouse, fingers and a wheel, as the browser's own input pipeline
// delivers them.

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {{x: number, y: number}} Place */

/** Points on the way from one place to another, its end included. */
/** @param {Place} from @param {Place} to @param {number} steps */
const way = (from, to, steps) => Array.from({ length: steps }, (_, i) => {
  const part = (i + 1) / steps;
  return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
});

/**
 * @typedef {object} Hand Presses, moves and lets go.
 * @property {boolean} coarse
 * @property {(at: Place) => Promise<unknown>} down
 * @property {(from: Place, to: Place) => Promise<unknown>} move
 * @property {() => Promise<unknown>} up
 */

/** @param {Page} page @returns {Promise<Hand>} */
export async function mouse(page) {
  return {
    coarse: false,
    async down(at) {
      await page.mouse.move(at.x, at.y);
      await page.mouse.down();
    },
    async move(from, to) {
      for (const at of way(from, to, 4)) await page.mouse.move(at.x, at.y);
    },
    up: () => page.mouse.up(),
  };
}

/** One finger. @param {Page} page @returns {Promise<Hand>} */
export async function finger(page) {
  const touch = await touchScreen(page);
  return {
    coarse: true,
    down: (at) => touch('touchStart', [at]),
    async move(from, to) {
      for (const at of way(from, to, 4)) await touch('touchMove', [at]);
    },
    up: () => touch('touchEnd', []),
  };
}

/** @param {Page} page */
async function touchScreen(page) {
  const devtools = await page.context().newCDPSession(page);
  /** @param {'touchStart' | 'touchMove' | 'touchEnd'} type @param {Place[]} places */
  return (type, places) => devtools.send('Input.dispatchTouchEvent',
    { type, touchPoints: places.map((at, id) => ({ ...at, id })) });
}

/** @param {Page} page @param {Place} from @param {Place} to */
export async function swipe(page, from, to) {
  const hand = await finger(page);
  await hand.down(from);
  await hand.move(from, to);
  await hand.up();
}

/**
 * Two fingers, moved apart about a place.
 * @param {Page} page @param {Place} about @param {number} before Pixels between them. @param {number} after
 */
export async function pinch(page, about, before, after) {
  const touch = await touchScreen(page);
  /** @param {number} apart */
  const places = (apart) => [-0.5, 0.5].map((side) => ({ x: about.x + side * apart, y: about.y }));
  await touch('touchStart', places(before).slice(0, 1));
  await touch('touchStart', places(before));
  for (let i = 1; i <= 4; ++i) await touch('touchMove', places(before + (after - before) * (i / 4)));
  await touch('touchEnd', []);
}

/** The wheel with the Control key held. @param {Page} page @param {Place} at @param {number} pixels */
export async function controlWheel(page, at, pixels) {
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Input.dispatchMouseEvent',
    { type: 'mouseWheel', ...at, deltaX: 0, deltaY: pixels, modifiers: 2 });
}
