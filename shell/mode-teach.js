// The mode "Teach": makes a course package of this very page, in the browser.
import { manifestOf } from './course-manifest.js';
import { byId, onSubmit, write } from './dom.js';
import { el, toNode } from './markup.js';
import { download } from './practice-store.js';
import { say } from './text.js';
import { zipOf } from './zip.js';

const FILE_NAME = 'holding-lesson-scorm12.zip';

/** @param {string} name @returns {Promise<Uint8Array>} */
async function bytesOf(name) {
  const answer = await fetch(name);
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

/** The files of this page with a manifest of their own. @param {import('./course-manifest.js').Package} wanted */
async function packageOf(wanted) {
  /** @type {string[]} */
  const names = JSON.parse(new TextDecoder().decode(await bytesOf('files.json')));
  const files = new Map(await Promise.all(names.map(async (name) => /** @type {const} */ ([name, await bytesOf(name)]))));
  files.set('imsmanifest.xml', new TextEncoder().encode(manifestOf(wanted, names)));
  return zipOf(files);
}

/** @param {import('./types').Core} core @returns {import('./modes.js').Mode} */
export function teachMode(core) {
  const form = byId('teach-form', HTMLFormElement);
  const set = byId('teach-set', HTMLSelectElement);
  const code = byId('teach-code', HTMLInputElement);
  const mark = byId('teach-mark', HTMLInputElement);
  const problem = byId('teach-problem', HTMLElement);
  const said = byId('teach-said', HTMLElement);
  const tutor = core.tutor();

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
      const zip = await packageOf({ title: byId('teach-title', HTMLInputElement).value.trim() || say('page.title'),
        goal: goal(), set: set.value, code: code.value.trim(), mastery });
      download(zip, FILE_NAME, 'application/zip');
      write(said, say('page.teach.made', { name: FILE_NAME, kb: Math.round(zip.length / 1024) }));
    } catch (error) {
      console.info(error);
      write(said, say('page.teach.not_made'));
    }
  });

  return {
    open() {
      if (set.options.length === 0) {
        set.replaceChildren(...tutor.sets().map(({ id, title }) => toNode(el('option', { value: id }, title))));
        set.value = 'mixed';
      }
      showGoal();
    },
    close() {},
  };
}
