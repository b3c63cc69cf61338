// The cloud of what cannot be known: its switch, its uncertainties, what it comes to, and the
// flights over the picture.
import { addressKey } from './address.js';
import { byId, write } from './dom.js';
import { known } from './format.js';
import { el } from './markup.js';
import { patcher } from './patch.js';
import { createCloudLayer } from './winds-layer.js';
import { say } from './text.js';
import { FLIGHTS } from './study-cloud.js';
import { percent, shareOf, valueWords } from './winds-words.js';

/** @typedef {import('./study.mjs').Unknown} Unknown */
/** @typedef {import('./study.mjs').CloudInfo} CloudInfo */
/** @typedef {import('./study-work.js').CloudPicture} CloudPicture */

/** In the order of the key spread=. */
const UNKNOWNS = /** @type {const} */ (['wind-from', 'wind-speed', 'heading', 'clock', 'speed', 'turn-start']);
const MOST_SEED = 1e6;

/** A cloud's own numbers, whatever map is shown. */
const OF_MISS = /** @type {const} */ ({ mapped: 'miss', less: null });

/** @param {number} share */
const bar = (share) => el('svg', { class: 'winds-bar', viewBox: '0 0 100 8', preserveAspectRatio: 'none', 'aria-hidden': 'true', focusable: 'false' },
  el('path', { d: `M0 0H${(100 * Math.max(0, share)).toFixed(1)}V8H0Z` }));

/** @param {CloudInfo} info */
function shareRows({ cross_shares }) {
  if (!cross_shares) return [];
  const row = (/** @type {string} */ name, /** @type {number} */ share) =>
    el('li', {}, el('span', {}, name), bar(share), el('strong', {}, percent(Math.max(0, share))));
  return [...cross_shares.rows.map(({ unknown, share }) => row(say(`page.winds.unknown.${unknown}`), share)),
    row(say('page.winds.together'), cross_shares.together)];
}

/**
 * @param {import('./hub.js').Hub} hub
 * @param {ReturnType<typeof import('./study-host.js').createStudyHost>} host
 * @param {() => number} tolerance_nm
 * @param {() => void} writeAddress
 */
export function mountCloud(hub, host, tolerance_nm, writeAddress) {
  const { session } = hub;
  const toggle = byId('winds-cloud', HTMLInputElement);
  const body = byId('winds-cloud-body', HTMLElement);
  const says = byId('winds-cloud-says', HTMLElement);
  const between = byId('winds-cloud-between', HTMLElement);
  const problem = byId('winds-cloud-problem', HTMLElement);
  const most = byId('winds-cloud-most', HTMLElement);
  const showShares = patcher(byId('winds-cloud-shares', HTMLElement));
  const layer = createCloudLayer(session, host.cloudScale);
  const fields = UNKNOWNS.map((name) => byId(`winds-${name}`, HTMLInputElement));
  let opened = false;
  let seed = 1;
  /** @type {import('./study-work.js').Ready['unknowns']} */
  let unknowns = [];

  /** What a field says, within what can be flown; as usual where that is no number. @param {number} i */
  function spreadOf(i) {
    const { usual = 0, widest = 0 } = unknowns.find(({ name }) => name === UNKNOWNS[i]) ?? {};
    const text = fields[i].value.trim().replace(',', '.');
    return /^\d+(\.\d+)?$/.test(text) ? Math.min(Number(text), widest) : usual;
  }

  const isUsual = () => UNKNOWNS.every((name, i) => spreadOf(i) === unknowns.find((u) => u.name === name)?.usual);

  function ask() {
    // Until it is known what is usual, nothing can be asked.
    if (!opened || !toggle.checked || unknowns.length === 0) return;
    host.cloud({
      link: session.link(),
      spread: /** @type {Record<Unknown, number>} */ (Object.fromEntries(UNKNOWNS.map((name, i) => [name, spreadOf(i)]))),
      seed,
      tolerance_nm: tolerance_nm(),
      view: layer.view(),
      inks: layer.inks(),
    });
  }

  /** @param {CloudInfo} info */
  function showNumbers(info) {
    const { low, high } = info.cross_nm;
    if (info.why || !known(low) || !known(high)) {
      write(says, info.why ? say(`page.winds.why.${info.why}`) : '');
      write(between, '');
      return;
    }
    write(says, say('page.winds.cloud.says', { share: shareOf(info.inside_share), n: FLIGHTS.toLocaleString(say('page.lang')), nm: String(info.tolerance_nm) }));
    const unflown = info.drawn - info.flown;
    write(between, [say('page.winds.cloud.between', { low: valueWords(OF_MISS, low), high: valueWords(OF_MISS, high) }),
      ...(unflown ? [say('page.winds.cloud.unflown', { n: String(unflown) })] : [])].join(' '));
  }

  function show() {
    body.hidden = !toggle.checked;
    if (toggle.checked && opened) {
      layer.look();
      ask();
    } else {
      host.rest('cloud');
      layer.clear();
    }
  }

  /** Each field says what is used, and what was not taken is said. */
  function put() {
    const bad = fields.flatMap((field, i) => {
      const used = String(spreadOf(i));
      const value = field.value.trim();
      field.value = used;
      return value === '' || Number(value.replace(',', '.')) === Number(used) ? [] : [say('page.winds.cloud.bad', {
        name: say(`page.winds.unknown.${UNKNOWNS[i]}`), value, used, widest: String(unknowns.find(({ name }) => name === UNKNOWNS[i])?.widest) })];
    });
    write(problem, bad.join(' '));
  }

  toggle.addEventListener('change', () => {
    show();
    writeAddress();
  });
  for (const field of fields) {
    field.addEventListener('change', () => {
      put();
      ask();
      writeAddress();
    });
  }
  byId('winds-cloud-again', HTMLButtonElement).addEventListener('click', () => {
    seed = (seed % MOST_SEED) + 1;
    ask();
    writeAddress();
  });
  // Pan, zoom and drag: the cloud that is there moves at once, the newer follows.
  hub.add({
    paint() {
      if (opened && toggle.checked) {
        layer.look();
        layer.draw();
        ask();
      }
      return false;
    },
  });

  return {
    ask,
    /** @param {import('./study-work.js').Ready['unknowns']} known_unknowns */
    ready(known_unknowns) {
      unknowns = known_unknowns;
      put();
      ask();
    },
    /** @param {CloudPicture} picture */
    show(picture) {
      layer.take(picture);
      showNumbers(picture.info);
      if (picture.info.why) showShares([]);
      most.hidden = picture.info.why !== null;
    },
    /** @param {CloudInfo} info */
    showShares(info) {
      showNumbers(info);
      showShares(shareRows(info));
    },
    /** As the address has it. */
    read() {
      const said = addressKey('cloud') ?? '';
      const asked = /^\d{1,6}$/.test(said) && Number(said) > 0;
      toggle.checked = asked;
      if (asked) seed = Number(said);
      const spreads = (addressKey('spread') ?? '').split(',');
      fields.forEach((field, i) => { field.value = spreads[i] ?? ''; });
      if (unknowns.length) put();
      body.hidden = !asked;
    },
    /** @returns {Record<string, string>} */
    keys() {
      if (!toggle.checked) return {};
      // Before it is known what is usual, what the address said stays.
      const spread = unknowns.length === 0 ? fields.map(({ value }) => value) : isUsual() ? [] : UNKNOWNS.map((_, i) => spreadOf(i));
      return { cloud: String(seed), ...(spread.some((x) => x !== '') ? { spread: spread.join(',') } : {}) };
    },
    open() {
      opened = true;
      show();
    },
    close() {
      opened = false;
      show();
    },
  };
}
