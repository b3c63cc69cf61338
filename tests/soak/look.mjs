// What must be so of the page after any gestures, once it is left alone. Runs in the page, sent as
// text: nothing from outside.

/** A flight would go on: it is halted, as a person would. */
export function halt() {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  const session = globalThis.__lesson?.session;
  if (!session?.live().playing) return;
  for (const id of ['play', 'fly-pause']) {
    const button = document.getElementById(id);
    if (session.live().playing && button?.checkVisibility()) button.click();
  }
  // No control for it is in view: a scene that is shown, not flown.
  if (session.live().playing) session.pause();
}

/**
 * Waits until the page asks for nothing; what it asked for last where it never rests.
 * @param {number} [most] Looks. @returns {Promise<string>}
 */
export async function rest(most = 60) {
  const { asked, realTimeout } = /** @type {any} */ (globalThis);
  const WINDOW_MS = 350;
  let last = '';
  for (let n = 0; n < most; n += 1) {
    const before = { ...asked, drawn: globalThis.__lesson?.frames() ?? 0 };
    await new Promise((done) => { realTimeout(done, WINDOW_MS); });
    const [frames, timers, drawn] = [asked.frames - before.frames, asked.timers - before.timers, (globalThis.__lesson?.frames() ?? 0) - before.drawn];
    if (!frames && !timers && !drawn) return '';
    last = `in ${WINDOW_MS} ms ${frames} frames asked for, ${drawn} drawn, ${timers} timers`;
  }
  return last;
}

/**
 * @param {boolean} caused A field or an address may have brought a problem.
 * @returns {Promise<string[]>} What is wrong.
 */
export async function faults(caused) {
  const world = /** @type {any} */ (globalThis);
  const { __lesson: lesson } = globalThis;
  /** @type {string[]} */
  const wrong = [];
  if (!lesson) return ['the page has no lesson'];
  const { session } = lesson;
  world.ownCore ??= await (await import(new URL('core.mjs', location.href).href)).load();
  /** @type {import('../../shell/types').Core} */
  const own = world.ownCore;
  await lesson.core.more();

  // --- the session, as a core that knows only its link says it ---
  const link = session.link();
  const report = /** @type {any} */ (session.report());
  const truth = /** @type {any} */ (own.evaluate(link));
  if (truth.link !== link) wrong.push(`the link ${link} is read as ${truth.link}`);
  for (const key of ['scenario', 'entry', 'rollout', 'exact', 'events', 'plans', 'sum', 'headline', 'outcome', 'summary', 'air', 'wind', 'laps', 'multiples', 'displays']) {
    // While the flight is asked for, it is not said.
    if (document.body.hasAttribute('data-asking') && /sum|headline|outcome/.test(key)) continue;
    // Without the miss in the picture its words end before the flight.
    if (key === 'summary' && !session.layers().miss && truth.summary.startsWith(report.summary)) continue;
    const [is, was_to_be] = [JSON.stringify(report[key]) ?? '', JSON.stringify(truth[key]) ?? ''];
    if (is === was_to_be) continue;
    const at = Math.max([...is].findIndex((letter, n) => letter !== was_to_be[n]) - 40, 0);
    wrong.push(`the report’s ${key} is not that of ${link}: …${is.slice(at, at + 80)} and not …${was_to_be.slice(at, at + 80)}`);
  }
  // What a scene has of itself, such as a wind too strong to be flown in, it has in both.
  const of_scene = JSON.stringify(truth.problems);
  if (!caused && JSON.stringify(report.problems) !== of_scene) wrong.push(`problems that nobody caused: ${JSON.stringify(report.problems)}, not ${of_scene}`);
  for (const { message } of report.problems) if (!message || message.length > 1000) wrong.push(`a problem says ${JSON.stringify(message.slice(0, 100))}`);

  // --- the address ---
  const of_page = new Set(['view', 'mode', 'step', 'set', 'code', 'check', 'map', 'plan', 'less', 'most', 'tol', 'cloud', 'spread']);
  const said = location.hash.slice(1).split('&').filter((pair) => !of_page.has(pair.split('=')[0])).join('&');
  const shown = document.body.dataset.mode ?? 'explore';
  const of_address = own.evaluate(said);
  if (/explore|winds|card/.test(shown) && of_address.link !== link) wrong.push(`the address ${location.hash} says ${of_address.link}, the session ${link}`);

  // --- what is in view ---
  if (!/core|view/.test(document.documentElement.dataset.ready ?? '')) wrong.push(`the page is ${document.documentElement.dataset.ready}`);
  const notice = document.getElementById('notice');
  if (notice?.checkVisibility()) wrong.push(`the notice says ${notice.textContent}`);
  const slip = /.{0,40}\b(NaN|undefined|null|Infinity|\[object \w+\])\b.{0,40}/.exec(document.body.innerText.replace(/“[^”]*”/g, ''));
  if (slip) wrong.push(`in view stands ${JSON.stringify(slip[0])}`);
  const numbers = /NaN|Infinity|undefined/.exec(session.svg());
  if (numbers) wrong.push(`the picture has ${numbers[0]}`);
  if (document.querySelectorAll('#picture svg, #picture canvas').length === 0) wrong.push('there is no picture');
  if (/explore/.test(shown) && document.getElementById('summary')?.textContent !== report.summary) wrong.push('the summary in view is not the report’s');

  // --- back a step and forth ---
  const [undo, redo] = ['undo', 'redo'].map((id) => /** @type {HTMLButtonElement | null} */ (document.getElementById(id)));
  const pressed = async (/** @type {HTMLButtonElement} */ button) => {
    button.click();
    for (let n = 0; n < 2; n += 1) await new Promise((done) => requestAnimationFrame(done));
  };
  if (undo?.checkVisibility() && !undo.disabled && session.canUndo()) {
    await pressed(undo);
    if (!session.canRedo() || !redo || redo.disabled) wrong.push('after undo there is nothing to redo');
    else await pressed(redo);
    if (session.link() !== link) wrong.push(`undo and redo lead from ${link} to ${session.link()}`);
    const again = /** @type {any} */ (session.report());
    if (JSON.stringify(again.rollout) !== JSON.stringify(report.rollout)) wrong.push('undo and redo give another flight');
  }
  return wrong;
}
