// The sensitivity card: what one thing at a time does to the roll-out, each way.
import { byId, write } from './dom.js';
import { known, whole } from './format.js';
import { table } from './panel-parts.js';
import { patcher } from './patch.js';
import { say } from './text.js';

/** @typedef {import('./study.mjs').SensitivityCard} SensitivityCard */
/** @typedef {NonNullable<SensitivityCard['rows']>[number]} Row */
/** @typedef {import('./study.mjs').Effect} Effect */

const NONE = '\u2013';

/** @param {number} x @param {number} digits */
function signed(x, digits) {
  const text = Math.abs(x).toFixed(digits);
  return Number(text) === 0 ? text : `${x < 0 ? '\u2212' : '+'}${text}`;
}

/** @param {Effect} effect */
const effectWords = ({ cross_nm, inbound_s }) => (known(cross_nm) && known(inbound_s)
  ? say('page.winds.effect', { nm: signed(cross_nm, 2), s: signed(inbound_s, 0) }) : NONE);

/** The greater of the two ways. @param {Row} row */
const size = ({ more, less }) => Math.max(Math.abs(more.cross_nm ?? 0), Math.abs(less.cross_nm ?? 0));

/** @param {Row} row */
const step = ({ unknown, amount }) => say(`page.winds.step.${unknown}`, { n: whole(amount) });

/** @param {Row[]} rows The two that do most, in one sentence. */
function sentence(rows) {
  const [first, second] = [...rows].sort((a, b) => size(b) - size(a));
  return say('page.winds.moves', { first: step(first), first_nm: size(first).toFixed(2), second: step(second), second_nm: size(second).toFixed(2) });
}

/** @param {import('./hub.js').Hub} hub @param {ReturnType<typeof import('./study-host.js').createStudyHost>} host */
export function mountCard(hub, host) {
  const says = byId('winds-card-says', HTMLElement);
  const showTable = patcher(byId('winds-card', HTMLElement));
  let link = '';
  return {
    async ask() {
      const now = hub.session.link();
      if (now === link && says.textContent) return;
      link = now;
      const { why, rows } = await host.card(now);
      if (link !== now) return;
      write(says, rows ? sentence(rows) : say(`page.winds.why.${why}`));
      showTable(!rows ? [] : [table(say('page.winds.card'), ['what', 'more', 'less'].map((name) => say(`page.winds.card.${name}`)),
        rows.map((row) => ({ cells: [step(row), effectWords(row.more), effectWords(row.less)] })))]);
      byId('winds-card-hint', HTMLElement).hidden = !rows;
    },
  };
}
