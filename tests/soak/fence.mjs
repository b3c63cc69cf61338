// What a copy of the page gets before its own first script: it counts what the page asks the browser
// to call, notes its complaints, and keeps the monkey from leaving it.
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { listenIn } from '../browser/engines.mjs';
import { SITE } from '../browser/lesson.mjs';

/** Plain script. Links to other pages, files, printing and dialogues of the system lead nowhere. */
const FENCE = `
{
  const asked = { frames: 0, timers: 0 };
  globalThis.asked = asked;
  const { requestAnimationFrame: frame, setTimeout: later, setInterval: again } = globalThis;
  globalThis.realTimeout = later.bind(globalThis);
  globalThis.requestAnimationFrame = (then) => { asked.frames += 1; return frame(then); };
  globalThis.setTimeout = (then, ms, ...rest) => later((...args) => { asked.timers += 1; then(...args); }, ms, ...rest);
  globalThis.setInterval = (then, ms, ...rest) => again((...args) => { asked.timers += 1; then(...args); }, ms, ...rest);
  addEventListener('click', (event) => {
    const control = event.target instanceof Element ? event.target.closest('a[href], area[href], input[type=file]') : null;
    if (!control) return;
    const leaves = control.matches('input, [download], [target]') || control.href.replace(/#.*/, '') !== location.href.replace(/#.*/, '');
    if (leaves) event.preventDefault();
  }, true);
  globalThis.print = () => {};
  for (const name of ['share', 'requestFullscreen']) Reflect.deleteProperty(Navigator.prototype, name);
  Element.prototype.requestFullscreen = () => Promise.reject(new TypeError('not here'));
  Object.defineProperty(navigator, 'serviceWorker', { value: undefined });
}
`;

/** A copy of the built page with the fence in it. */
export function fencedCopy() {
  const folder = mkdtempSync(join(tmpdir(), 'fenced-'));
  cpSync(SITE, folder, { recursive: true });
  listenIn(folder);
  const first = join(folder, 'early.js');
  writeFileSync(first, FENCE + readFileSync(first, 'utf8'));
  return { folder, remove: () => rmSync(folder, { recursive: true }) };
}
