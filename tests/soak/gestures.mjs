// What the monkey does: each gesture is drawn by chance, done in the page as a person's hand would, and
// named, so that a failure can be read.
import { manyLinks } from '../browser/links.mjs';

/** @typedef {import('../browser/engines.mjs').Engine} Engine */
/** @typedef {import('./random.mjs').Chance} Chance */
/**
 * @typedef {object} State What the gestures so far have led to.
 * @property {boolean} caused A field or a link may have brought a problem.
 * @property {number} depth Steps that one can go back.
 */
/** @typedef {(page: Engine, chance: Chance, state: State) => Promise<string>} Gesture */

const MODES = ['lesson', 'explore', 'practice', 'fly', 'winds', 'card', 'teach'];
const VIEWS = ['plan', 'clearance', 'entry', 'wind', 'laps', 'miss', 'displays', 'limits'];
const KEYS = ['Tab', 'Tab', 'Tab', 'Enter', 'Space', 'Escape', 'ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End', 'Backspace', 'Delete', '5', '9', 'x'];
const GOOD = ['1', '45', '090', '238', '360', '1:10', '4nm', '30', '12', '180/20', '7E', '6000', 'left', 'TARNE', '18:45', '24018KT', 'hold west of TARNE'];
const BAD = ['', ' ', 'none', '-1', '1e999', '999999', '0/0/0', '🌀', '<b>x</b>', '‮٣', '\u0000', 'x'.repeat(300), '1:99', '--', '%00'];
const SIZES = [[1280, 860], [1024, 768], [768, 1000], [420, 840], [900, 420]];

/** @param {Engine} page @param {number} which Of the handles; 0: anywhere. */
const placeOf = (page, which) => page.evaluate((handle) => {
  const box = document.getElementById('picture')?.getBoundingClientRect();
  if (!box || box.width < 10) return null;
  const at = handle ? globalThis.__lesson?.session.handle(handle) : { x: box.width / 3, y: box.height / 3 };
  if (!at) return null;
  const place = { x: Math.round(box.left + at.x), y: Math.round(box.top + at.y) };
  return place.x > 2 && place.y > 2 && place.x < innerWidth - 2 && place.y < innerHeight - 2 ? place : null;
}, which);

/** @type {Gesture} */
async function drag(page, chance) {
  const which = chance.whole(0, 4);
  const [dx, dy] = [chance.whole(-120, 120), chance.whole(-120, 120)];
  const from = await placeOf(page, which);
  if (!from) return 'nothing to drag';
  const size = await page.evaluate(() => ({ width: innerWidth, height: innerHeight }));
  const to = { x: Math.min(Math.max(from.x + dx, 1), size.width - 2), y: Math.min(Math.max(from.y + dy, 1), size.height - 2) };
  await page.drag(from, to);
  return `drag ${which ? `handle ${which}` : 'the picture'} by ${dx}, ${dy}`;
}

/** @type {Gesture} */
async function wheel(page, chance) {
  const delta = chance.whole(-400, 400);
  await page.evaluate((deltaY) => {
    const picture = document.getElementById('picture');
    const box = picture?.getBoundingClientRect();
    if (box) picture?.dispatchEvent(new WheelEvent('wheel', { deltaY, ctrlKey: true, bubbles: true, cancelable: true, clientX: box.left + 90, clientY: box.top + 80 }));
  }, delta);
  return `wheel ${delta}`;
}

/** @type {Gesture} */
async function pinched(page, chance, state) {
  const [before, after] = [chance.whole(40, 120), chance.whole(30, 260)];
  const at = await placeOf(page, 0);
  if (!at || !page.pinch) return wheel(page, chance, state);
  await page.pinch(at, before, after);
  return `pinch ${before} to ${after}`;
}

/** @type {Gesture} */
async function key(page, chance) {
  const name = chance.one(KEYS);
  await page.key(name);
  return `key ${name}`;
}

/** A control that can be seen and used, by its mouse where it is in the window. @type {Gesture} */
async function click(page, chance) {
  const at = chance.next();
  const found = await page.evaluate((part) => {
    const all = [...document.querySelectorAll('button, a[href], input[type=radio], input[type=checkbox], summary, [role=tab]')]
      .filter((el) => el.checkVisibility({ visibilityProperty: true }) && !(/** @type {any} */ (el).disabled));
    const control = /** @type {HTMLElement | undefined} */ (all[Math.floor(part * all.length)]);
    if (!control) return 'none';
    control.focus();
    control.click();
    return `${control.localName}${control.id ? `#${control.id}` : ''} “${(control.textContent ?? '').trim().slice(0, 30)}”`;
  }, at);
  return `click ${found}`;
}

/** @type {Gesture} */
async function choose(page, chance) {
  const [at, which] = [chance.next(), chance.next()];
  return page.evaluate((part, option) => {
    const all = [...document.querySelectorAll('select')].filter((el) => el.checkVisibility() && !el.disabled);
    const select = all[Math.floor(part * all.length)];
    if (!select) return 'nothing to choose';
    select.selectedIndex = Math.floor(option * select.options.length);
    for (const about of ['input', 'change']) select.dispatchEvent(new Event(about, { bubbles: true }));
    return `choose ${select.id} ${select.value}`;
  }, at, which);
}

/** @type {Gesture} */
async function field(page, chance, state) {
  const bad = chance.next() < 0.4;
  const [at, text] = [chance.next(), chance.one(bad ? BAD : GOOD)];
  // A good text may be a bad one for another field.
  state.caused = true;
  return page.evaluate((part, value) => {
    const all = [...document.querySelectorAll('input, textarea')].filter((el) => el.checkVisibility()
      && !(/** @type {any} */ (el).disabled) && !/radio|checkbox|file|button/.test(/** @type {any} */ (el).type));
    const input = /** @type {HTMLInputElement | undefined} */ (all[Math.floor(part * all.length)]);
    if (!input) return 'no field';
    input.focus();
    input.value = value;
    for (const about of ['input', 'change']) input.dispatchEvent(new Event(about, { bubbles: true }));
    input.blur();
    return `${input.id || input.name} := ${JSON.stringify(value.slice(0, 40))}`;
  }, at, text);
}

/** @type {Gesture} */
async function mode(page, chance, state) {
  const name = chance.one(MODES);
  const moved = await page.evaluate((to) => {
    const link = document.getElementById(`to-${to}`);
    if (!link?.checkVisibility()) return false;
    const before = location.hash;
    link.click();
    return location.hash !== before;
  }, name);
  if (moved) state.depth += 1;
  return `mode ${name}`;
}

/** @type {Gesture} */
async function view(page, chance) {
  const name = chance.one(VIEWS);
  await page.evaluate((to) => {
    const tab = document.getElementById(`tab-${to}`);
    if (tab?.checkVisibility()) tab.click();
  }, name);
  return `view ${name}`;
}

/** @type {Gesture} */
async function link(page, chance, state) {
  const hash = manyLinks(1, chance.whole(1, 1e6))[0];
  const moved = await page.evaluate((to) => {
    const before = location.hash;
    location.hash = to;
    return location.hash !== before;
  }, hash);
  if (moved) state.depth += 1;
  return `#${hash}`;
}

/** @type {Gesture} */
async function resize(page, chance) {
  const [width, height] = chance.one(SIZES);
  await page.resize(width, height);
  return `resize ${width} × ${height}`;
}

/** @type {Gesture} */
async function back(page, chance, state) {
  // One less than may be gone back: keys and clicks write the address in place.
  if (state.depth < 2) return 'nothing to go back to';
  const forth = chance.next() < 0.5;
  await page.evaluate(() => history.back());
  if (forth) await page.evaluate(() => history.forward());
  else state.depth -= 1;
  return forth ? 'back and forward' : 'back';
}

/** @type {Gesture} */
async function play(page) {
  await page.evaluate(() => {
    const button = document.getElementById('play');
    if (button?.checkVisibility()) button.click();
  });
  return 'play';
}

/** @type {readonly (readonly [number, Gesture])[]} */
export const GESTURES = [[12, drag], [6, wheel], [3, pinched], [14, key], [22, click], [5, choose], [12, field], [6, mode], [6, view], [4, link],
  [2, resize], [3, back], [5, play]];
