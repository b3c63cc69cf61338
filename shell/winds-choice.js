// What is mapped, by whose plan, how far out: as the controls of the mode have it and as its
// address says it.
import { addressKey } from './address.js';
import { byId } from './dom.js';
import { MAPPED, PLANS } from './winds-words.js';

/** @typedef {import('./study.mjs').MapChoice} MapChoice */
/** @typedef {Required<Omit<MapChoice, 'finest'>>} Choice */

/** Controls by the address's keys. */
const CONTROLS = /** @type {const} */ ({ map: 'winds-mapped', plan: 'winds-plan', less: 'winds-less', most: 'winds-most', tol: 'winds-tolerance' });
/** @type {Record<keyof typeof CONTROLS, string>} */
export const USUAL = { map: 'miss', plan: 'drift-once', less: '', most: '60', tol: '0.25' };
const KEYS = /** @type {(keyof typeof CONTROLS)[]} */ (Object.keys(CONTROLS));

/** @param {keyof typeof CONTROLS} key */
const control = (key) => byId(CONTROLS[key], HTMLSelectElement);

/** Of several rules, the best of each wind, and a difference, there are only misses. */
function bringTogether() {
  const miss = control('map').value === 'miss';
  for (const option of control('plan').options) option.disabled = option.value === 'best' && !miss;
  if (!miss && control('plan').value === 'best') control('plan').value = USUAL.plan;
  for (const option of control('less').options) option.disabled = option.value !== '' && option.value === control('plan').value;
  if (!miss || control('less').value === control('plan').value) control('less').value = '';
  byId('winds-plan-part', HTMLElement).hidden = control('map').value === 'multiple';
  byId('winds-less-part', HTMLElement).hidden = !miss;
  byId('winds-tolerance-part', HTMLElement).hidden = !['miss', 'laps'].includes(control('map').value);
}

/** @param {() => void} onChoice It was chosen by hand. @param {typeof USUAL} [usual] What the address need not say. */
export function mountChoice(onChoice, usual = USUAL) {
  for (const key of KEYS) {
    control(key).addEventListener('change', () => {
      bringTogether();
      onChoice();
    });
  }
  return {
    /** As the address has it; what is not offered is as usual. */
    read() {
      for (const key of KEYS) {
        const said = addressKey(key) ?? usual[key];
        control(key).value = [...control(key).options].some(({ value }) => value === said) ? said : usual[key];
      }
      bringTogether();
    },
    /** What is not as usual, here or where it leads to. @param {Partial<typeof USUAL>} [than] @returns {Record<string, string>} */
    keys: (than = usual) => Object.fromEntries(KEYS.filter((key) => control(key).value !== than[key]).map((key) => [key, control(key).value])),
    /** @returns {Choice} */
    choice: () => ({
      mapped: MAPPED.find((name) => name === control('map').value) ?? 'miss',
      plan: PLANS.find((name) => name === control('plan').value) ?? 'drift-once',
      less: PLANS.find((name) => name === control('less').value) ?? null,
      most_kt: Number(control('most').value),
      tolerance_nm: Number(control('tol').value),
    }),
  };
}
