// The view "Entry": why this sector, and the three entries side by side, one of them flown.
import { byId } from './dom.js';
import { clock, degrees, whole } from './format.js';
import { isFixed } from './instructor.js';
import { el } from './markup.js';
import { offCourse } from './outcome-markup.js';
import { paragraphs, part, sums } from './panel-parts.js';
import { say } from './text.js';

/** @typedef {import('./types').EntryRow} EntryRow */
/** @typedef {import('./types').Evaluation} Evaluation */

/** @param {EntryRow} entry */
const standing = (entry) => say(`page.entry.${entry.in_sector ? 'in_sector' : entry.acceptable ? 'acceptable' : 'outside'}`);

/** "right 15°". @param {string | null} side @param {number | null} deg */
const turned = (side, deg) => (side
  ? say(`page.entry.turned.${side}`, { deg: whole(deg) }) : '\u2013');

/** @param {EntryRow} entry */
function established(entry) {
  if (entry.fix_missed) return say('page.entry.missed');
  return clock(entry.on_course_s);
}

/** What is compared, row by row. @type {[name: string, cell: (entry: EntryRow) => string][]} */
const ROWS = [
  ['sector', standing],
  ['heading', (e) => degrees(e.heading_deg)],
  ['time', (e) => clock(e.time_s)],
  ['first_turn', (e) => turned(e.first_turn, e.first_turn_deg)],
  ['turn', (e) => turned(e.turn, e.turn_deg)],
  ['roll_out', (e) => offCourse(e.rollout?.cross_nm, say)],
  ['on_course', established],
  ['fix_again', (e) => clock(e.fix_again_s)],
];

/** @param {EntryRow} entry */
const head = (entry) => el('th', { scope: 'col', class: entry.flown ? 'flown' : undefined },
  el('label', { class: 'entry-name' },
    el('input', { type: 'radio', name: 'entry-flown', value: entry.kind, checked: entry.flown }),
    el('span', {}, entry.label)));

/** @param {EntryRow[]} entries */
function compared(entries) {
  const whys = entries.filter((entry) => entry.why);
  return [
    el('table', { class: 'numbers entries' },
      el('caption', { class: 'visually-hidden' }, say('page.entry.caption')),
      el('thead', {}, el('tr', {}, el('td', {}), ...entries.map(head))),
      el('tbody', {}, ...ROWS.map(([name, cell]) => el('tr', {},
        el('th', { scope: 'row' }, say(`page.entry.row.${name}`)),
        ...entries.map((entry) => el('td', {
          class: [entry.flown ? 'flown' : '', name === 'sector' && entry.acceptable ? 'acceptable' : ''].filter(Boolean).join(' ') || undefined,
        }, cell(entry))))))),
    ...whys.map((entry) => el('p', { class: 'hint' }, `${entry.label}: ${entry.why}`)),
  ];
}

/** @param {Evaluation} report */
function nearBoundary(report) {
  const off = report.sector_boundary_deg;
  if (typeof off !== 'number' || !Number.isFinite(off)) return null;
  return say('page.entry.boundary', { deg: whole(off) });
}

/**
 * @param {import('./hub.js').Hub} hub
 * @returns {import('./panels.js').Panel}
 */
export function entryPanel(hub) {
  const { session } = hub;
  const place = byId('entries', HTMLElement);
  const auto = byId('entry-auto', HTMLButtonElement);
  const showWhy = part('entry-why');
  const showEntries = part('entries');
  const showSteps = part('entry-steps');
  const showBook = part('book-words');

  let hand_on = false;

  /** @returns {HTMLInputElement[]} */
  const radios = () => [...place.querySelectorAll('input')];

  place.addEventListener('change', (event) => {
    if (event.target instanceof HTMLInputElement) hub.change(session.set('entry', event.target.value));
  });
  auto.addEventListener('click', () => {
    hub.change(session.set('entry', 'auto'));
    // The button goes: the focus is handed on to what it changes.
    hand_on = true;
  });

  return {
    layers: ['sectors', 'other_entry'],
    scenario(report) {
      const entries = report.entries ?? [];
      const focused = radios().find((radio) => radio === document.activeElement)?.value;
      showWhy(paragraphs(report.sector, nearBoundary(report)));
      showBook(paragraphs(report.book?.words));
      showEntries(entries.length ? compared(entries) : []);
      for (const radio of radios()) {
        radio.checked = entries.some((e) => e.flown && e.kind === radio.value);
        if (isFixed('entry')) radio.disabled = true;
      }
      radios().find((radio) => (hand_on ? radio.checked : radio.value === focused))?.focus();
      hand_on = false;
      auto.hidden = isFixed('entry') || (report.fields.entry ?? 'auto') === 'auto';
      showSteps(sums(entries.find((entry) => entry.flown)?.steps));
    },
  };
}
