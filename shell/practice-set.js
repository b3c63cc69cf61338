// Which question set practice draws from: a built-in one, a file of the person's own, or one
// that the address links.
import { byId, write } from './dom.js';
import { el, toNode } from './markup.js';
import { showProblems } from './practice-markup.js';
import { say } from './text.js';

/** The set that needs no saying. */
const FIRST = 'mixed';
/** Value of the list's row for a set that is not built in. */
const OWN = '';

/**
 * @param {import('./types').Tutor} tutor
 * @param {() => void} onTaken Another set is in use, or was refused.
 */
export function mountSetChoice(tutor, onTaken) {
  const chosen = byId('practice-set', HTMLSelectElement);
  const file = byId('practice-file', HTMLInputElement);
  const problems = byId('practice-set-problems', HTMLElement);
  /** @type {ReturnType<typeof tutor.sets>} */
  let sets = [];
  /** What the address calls the set in use; null: a file of the person's, which has no address. */
  let name = /** @type {string | null} */ (FIRST);
  /** What is on its way, in the address already. @type {string | null} */
  let awaited = null;
  /** Counts choices, so that a file that comes late does not undo a later one. */
  let choices = 0;

  /** @param {string} title Of a set that is not built in. */
  function show(title) {
    const built_in = sets.find(({ id }) => id === name);
    const rows = sets.map((set) => ({ value: set.id, title: set.title }));
    if (!built_in) rows.push({ value: OWN, title });
    chosen.replaceChildren(...rows.map((row) => toNode(el('option', { value: row.value }, row.title))));
    chosen.value = built_in ? built_in.id : OWN;
    write(byId('practice-set-about', HTMLElement), built_in?.about
      ?? say(name === null ? 'page.practice.set.own' : 'page.practice.set.linked', { title, name: name ?? '' }));
  }

  /** @param {string} id_or_json @param {string | null} as */
  function take(id_or_json, as) {
    choices += 1;
    awaited = null;
    const set = tutor.useSet(id_or_json);
    if (set.usable) name = as;
    show(set.title);
    showProblems(problems, set.problems);
    onTaken();
  }

  /** @param {string} path */
  async function fetched(path) {
    const url = new URL(path, location.href);
    if (url.protocol === 'file:') throw new Error('a page on disk may read no other file');
    if (url.origin !== location.origin) throw new Error(`${url.origin} is another origin`);
    const answer = await fetch(url);
    if (!answer.ok) throw new Error(String(answer.status));
    return answer.text();
  }

  chosen.addEventListener('change', () => {
    if (chosen.value !== OWN) take(chosen.value, chosen.value);
  });
  file.addEventListener('change', async () => {
    const given = file.files?.[0];
    if (!given) return;
    const text = await given.text();
    // Else the same file, mended, would be no change.
    file.value = '';
    take(text, null);
  });

  return {
    /** Fills the list; once. */
    offer() {
      sets = tutor.sets();
      show(tutor.useSet(FIRST).title);
    },
    /**
     * The set that an address names: a built-in one, or a file of the same server. Where it
     * cannot be had, that is said and the one before stays.
     * @param {string} asked
     */
    async use(asked) {
      if (asked === this.name()) return;
      if (sets.some(({ id }) => id === asked)) {
        take(asked, asked);
        return;
      }
      choices += 1;
      const mine = choices;
      awaited = asked;
      try {
        const text = await fetched(asked);
        if (mine === choices) take(text, asked);
      } catch {
        if (mine !== choices) return;
        awaited = null;
        showProblems(problems, [{ message: say('page.practice.set.unread', { name: asked, used: tutor.state().set.title }) }]);
        onTaken();
      }
    },
    /** Set by a course, and not by the student. @param {boolean} on */
    fix(on) {
      chosen.disabled = on;
      file.disabled = on;
    },
    /** What the address calls it. */
    name: () => awaited ?? name,
    /** Its key of the address. @returns {Record<string, string>} */
    keys() {
      const said = this.name();
      return said === null || said === FIRST ? /** @type {Record<string, string>} */ ({}) : { set: said };
    },
    first: FIRST,
  };
}
