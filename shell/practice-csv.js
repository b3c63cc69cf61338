// A finished check as a table (RFC 4180) and in one line. Columns: docs/practice.md "The
// answers as a table".
import { csvText } from './csv.js';

/** @typedef {import('./types').TutorResult} TutorResult */
/** @typedef {{code: string, set: {id: string, version: number}, build: string, date: string}} Check */

const COLUMNS = ['seed', 'set', 'build', 'item', 'skill', 'given', 'correct', 'tolerance', 'right', 'hints', 'date'];

/** @param {Check} check */
const setName = ({ set }) => `${set.id}@${set.version}`;

/** @param {TutorResult} result @param {Check} check */
export function csvOf(result, check) {
  const rows = result.answers.map((row) => [check.code, setName(check), check.build, row.number, row.skill,
    row.given, row.right_text, row.tolerance, row.right ? 1 : 0, 0, check.date]);
  return csvText([COLUMNS, ...rows]);
}

/**
 * "7F3K9 mixed@1 E3/3 H2/3 W3/3 T2/3 2026-11-25".
 * @param {TutorResult} result @param {Check} check
 * @param {(skill: string) => string} letter
 */
export const lineOf = (result, check, letter) => [check.code, setName(check),
  ...result.skills.map(({ skill, right, of }) => `${letter(skill)}${right}/${of}`), check.date].join(' ');

/** The day on the person's own calendar, as ISO 8601 has it. */
export function isoDay(now = new Date()) {
  const two = (/** @type {number} */ n) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
