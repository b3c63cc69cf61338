// The mode "Teach": makes a course package of this very page, in the browser.
import { carried } from './carried.js';
import { packageOf } from './course-package.js';
import { byId, onSubmit, write } from './dom.js';
import { el, toNode } from './markup.js';
import { showProblems } from './practice-markup.js';
import { download } from './practice-store.js';
import { mountSnippet } from './teach-embed.js';
import { say } from './text.js';

const FILE_NAME = 'holding-lesson-scorm12.zip';

/** @typedef {{id: string, title: string, text: string}} OwnSet A question set from a file. */

/** What the package calls it. @param {OwnSet} own */
const nameOf = ({ id }) => `set-${id}.json`;

/** @param {string} name @returns {Promise<Uint8Array>} */
async function bytesOf(name) {
  const answer = await fetch(name);
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

/**
 * The files of this page, and the instructor's set where one is asked.
 * @param {OwnSet | null} own
 */
async function filesWith(own) {
  /** @type {string[]} */
  const names = JSON.parse(new TextDecoder().decode(await bytesOf('files.json')));
  const files = new Map(await Promise.all(names.map(async (name) => /** @type {const} */ ([name, await bytesOf(name)]))));
  if (own) files.set(nameOf(own), new TextEncoder().encode(own.text));
  return files;
}

/** @param {import('./hub.js').Hub} hub @param {import('./types').Core} core @returns {import('./modes.js').Mode} */
export function teachMode(hub, core) {
  mountSnippet(hub);
  const form = byId('teach-form', HTMLFormElement);
  const set = byId('teach-set', HTMLSelectElement);
  const code = byId('teach-code', HTMLInputElement);
  const mark = byId('teach-mark', HTMLInputElement);
  const problem = byId('teach-problem', HTMLElement);
  const said = byId('teach-said', HTMLElement);
  const tutor = core.tutor();
  const file = byId('teach-file', HTMLInputElement);
  /** @type {OwnSet | null} */
  let own = null;

  const goal = () => /** @type {import('./course-rules.js').Goal} */ (String(new FormData(form).get('teach-goal')));

  function showGoal() {
    for (const part of form.querySelectorAll('[data-goals]')) {
      /** @type {HTMLElement} */ (part).hidden = !part.getAttribute('data-goals')?.split(' ').includes(goal());
    }
  }

  /** What cannot be used, with the field it is in. @returns {{field: HTMLInputElement, message: string} | null} */
  function fault() {
    const wanted = code.value.trim();
    if (goal() !== 'lesson' && wanted) {
      const [bad] = tutor.sheet({ code: wanted, count: 1 }).problems;
      if (bad) return { field: code, message: bad.message };
    }
    const number = Number(mark.value);
    const good = mark.value.trim() === '' || (Number.isInteger(number) && number >= 1 && number <= 100);
    return goal() !== 'check' || good ? null : { field: mark, message: say('page.teach.mark.bad', { value: mark.value }) };
  }

  /** The built-in sets, and the instructor's own. @param {string} [chosen] */
  function offer(chosen) {
    const rows = [...tutor.sets(), ...(own ? [{ id: nameOf(own), title: say('page.teach.own.used', { title: own.title }) }] : [])];
    set.replaceChildren(...rows.map(({ id, title }) => toNode(el('option', { value: id }, title))));
    set.value = chosen ?? 'mixed';
  }

  /** Reads it in a core of its own: what runs in practice goes on. @param {string} text */
  async function takeOwn(text) {
    const { load } = await import('./core.mjs');
    const read = (await load({ wasm: carried('core.wasm'), more: carried('core-more.wasm') })).tutor().useSet(text);
    showProblems(byId('teach-file-problems', HTMLElement), read.problems);
    if (!read.usable) return;
    own = { id: read.id, title: read.title, text };
    offer(nameOf(own));
  }

  file.addEventListener('change', async () => {
    const given = file.files?.[0];
    if (given) await takeOwn(await given.text());
    // Else the same file, mended, would be no change.
    file.value = '';
  });
  form.addEventListener('change', showGoal);
  byId('teach-new-code', HTMLButtonElement).addEventListener('click', () => {
    code.value = tutor.newCode(crypto.getRandomValues(new Uint32Array(1))[0]);
  });
  onSubmit(form, async () => {
    const wrong = fault();
    problem.hidden = !wrong;
    write(problem, wrong?.message ?? '');
    write(said, '');
    if (wrong) {
      wrong.field.focus();
      return;
    }
    try {
      const mastery = mark.value.trim() === '' ? null : Number(mark.value);
      const wanted = { title: byId('teach-title', HTMLInputElement).value.trim() || say('page.title'),
        goal: goal(), set: set.value, code: code.value.trim(), mastery };
      const zip = packageOf(wanted, await filesWith(goal() !== 'lesson' && own && set.value === nameOf(own) ? own : null));
      download(zip, FILE_NAME, 'application/zip');
      write(said, say('page.teach.made', { name: FILE_NAME, kb: Math.round(zip.length / 1024) }));
    } catch (error) {
      console.info(error);
      write(said, say('page.teach.not_made'));
    }
  });

  return {
    open() {
      if (set.options.length === 0) offer();
      showGoal();
    },
    close() {},
  };
}
