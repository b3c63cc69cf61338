// The part of practice that keeps progress: on the device, as a file, as text, or not at all.
import { announce } from './announce.js';
import { byId, write } from './dom.js';
import { showProblems } from './practice-markup.js';
import { download } from './practice-store.js';
import { say } from './text.js';

/** @typedef {ReturnType<typeof import('./practice-store.js').createStore>} Store */

const FILE_NAME = 'holding-practice.json';

/**
 * @param {import('./types').Tutor} tutor
 * @param {() => void} onReplaced Another progress is in the tutor: what ran has ended.
 * @param {() => Store} openStore Where progress stays.
 */
export function mountProgress(tutor, onReplaced, openStore) {
  const problems = byId('practice-import-problems', HTMLElement);
  const sure = byId('practice-sure', HTMLElement);
  const clear = byId('practice-clear', HTMLButtonElement);
  const as_text = byId('practice-as-text', HTMLDetailsElement);
  const text = byId('practice-text', HTMLTextAreaElement);
  /** Opened when practice is. @type {Store | null} */
  let store = null;
  /** What is kept could not be read: it is not written over. */
  let guarded = false;
  let kept = false;
  /** Another window has saved while something ran here: what it kept is not written over. */
  let overtaken = false;
  /** Another window has saved, and that was not looked at yet. */
  let stale = false;

  function show() {
    write(byId('practice-kept', HTMLElement), say(guarded ? 'page.practice.guarded'
      : overtaken ? 'page.practice.overtaken' : kept && store ? store.words : 'page.practice.not_kept'));
    if (as_text.open) text.value = tutor.progress();
  }

  function save() {
    if (overtaken && tutor.state().mode === 'none') {
      followOther();
      return;
    }
    if (store && !guarded && !overtaken) kept = store.write(tutor.progress());
    show();
  }

  /** @param {string} given */
  function take(given) {
    const answer = tutor.takeProgress(given);
    showProblems(problems, answer.problems);
    announce(say(answer.taken ? 'page.practice.imported' : 'page.practice.not_imported'));
    if (!answer.taken) return;
    guarded = false;
    overtaken = false;
    onReplaced();
    save();
  }

  /** Takes up what another window has saved, once practice is in view and nothing runs here. */
  function followOther() {
    if (document.body.dataset.mode !== 'practice') return;
    stale = false;
    overtaken = tutor.state().mode !== 'none';
    if (overtaken) {
      show();
      return;
    }
    // Cleared there is cleared here.
    tutor.clearProgress();
    read();
    onReplaced();
  }
  window.addEventListener('storage', (event) => {
    if (!store?.isChangedBy(event)) return;
    stale = true;
    followOther();
  });

  byId('practice-export', HTMLButtonElement).addEventListener('click', () => download(tutor.progress(), FILE_NAME));
  byId('practice-import', HTMLInputElement).addEventListener('change', async (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const file = input.files?.[0];
    if (!file) return;
    const given = await file.text();
    input.value = '';
    take(given);
  });
  as_text.addEventListener('toggle', show);
  byId('practice-text-read', HTMLButtonElement).addEventListener('click', () => take(text.value));

  clear.addEventListener('click', () => {
    sure.hidden = false;
    byId('practice-clear-yes', HTMLButtonElement).focus();
  });
  byId('practice-clear-no', HTMLButtonElement).addEventListener('click', () => {
    sure.hidden = true;
    clear.focus();
  });
  byId('practice-clear-yes', HTMLButtonElement).addEventListener('click', () => {
    tutor.clearProgress();
    store?.clear();
    guarded = false;
    overtaken = false;
    kept = store?.keeps ?? false;
    sure.hidden = true;
    showProblems(problems, []);
    onReplaced();
    show();
    announce(say('page.practice.cleared'));
  });

  /** Reads what is kept; when practice is first opened, and where it is kept elsewhere from now on. */
  function read() {
    store = openStore();
    kept = store.keeps;
    const found = store.read();
    if (found !== null) {
      const answer = tutor.takeProgress(found);
      guarded = !answer.taken;
      showProblems(problems, answer.problems);
    }
    show();
  }

  return {
    read,
    /** Practice is in view again. */
    back() {
      if (stale) followOther();
    },
    /** It is kept elsewhere now; what is there is read only where nothing runs here. */
    moved() {
      if (!store) return;
      if (tutor.state().mode === 'none') {
        read();
        onReplaced();
      } else {
        store = openStore();
        save();
      }
    },
    /** Keeps the tutor's progress where that is allowed, and says whether it is. */
    save,
  };
}
