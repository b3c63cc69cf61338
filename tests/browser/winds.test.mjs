// The mode "All winds": what its map, cloud and card show is what the study module says in Node;
// the wind is dragged, and the page stays what it is.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { catalogue, sayer } from '../../web/catalogue.mjs';
import { readCsv } from './csv.mjs';
import { finger, mouse } from './hands.mjs';
import { SITE, ask, atRest, drawn, lessons, studyInNode, text, timersSet, withoutWorker } from './lesson.mjs';

const lesson = await lessons({ gl: false });
/** @type {typeof import('../../web/study.mjs')} */
const { hasSimd, load } = await import(pathToFileURL(join(SITE, 'study.mjs')).href);
const study = await studyInNode();

/** @typedef {import('./lesson.mjs').Page} Page */
/** @typedef {import('../../web/study.mjs').MapChoice} MapChoice */

const MARGIN_PX = 20;

/** The pixels of a canvas of the page: width, and red, green, blue, opacity of each. @param {Page} page @param {string} selector */
async function pixelsOf(page, selector) {
  const { width, text: bytes } = await page.evaluate((css) => {
    const canvas = /** @type {HTMLCanvasElement} */ (document.querySelector(css));
    const context = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d', { willReadFrequently: true });
    if (!context) throw new Error('no canvas');
    context.drawImage(canvas, 0, 0);
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    let all = '';
    for (let i = 0; i < data.length; i += 8192) all += String.fromCharCode(...data.subarray(i, i + 8192));
    return { width: canvas.width, text: btoa(all) };
  }, selector);
  return { width, data: Buffer.from(bytes, 'base64') };
}

/** A whole map of the study module in Node. @param {string} link @param {MapChoice} choice */
function mapInNode(link, choice) {
  study.scene(link);
  study.map.begin({ finest: 2, ...choice });
  while (!study.map.work(100000));
  return study.map;
}

/** Waits for the whole map of this choice. @param {Page} page @param {string} [about] */
const whole = (page, about = 'miss drift-once') => page.waitForFunction((want) => {
  const map = document.getElementById('winds-map');
  return map?.dataset.whole === 'true' && map.dataset.about === want;
}, about);

/** The map's colours in these winds. @param {Page} page @param {[number, number][]} winds @param {number} most_kt */
async function colours(page, winds, most_kt = 60) {
  const { width, data } = await pixelsOf(page, '#winds-canvas');
  return winds.map(([from, kt]) => {
    const r = (kt / most_kt) * (width / 2);
    const angle = (from * Math.PI) / 180;
    const at = 4 * (Math.floor(width / 2 - r * Math.cos(angle)) * width + Math.floor(width / 2 + r * Math.sin(angle)));
    return [...data.subarray(at, at + 4)];
  });
}

/** Place of a wind in the window. @param {Page} page @param {number} from @param {number} kt */
async function placeOf(page, from, kt, most_kt = 60) {
  await page.locator('#winds-map').scrollIntoViewIfNeeded();
  const box = await page.locator('#winds-map').boundingBox();
  assert.ok(box);
  const r = (kt / most_kt) * (box.width / 2 - MARGIN_PX);
  const angle = (from * Math.PI) / 180;
  return { x: box.x + box.width / 2 + r * Math.sin(angle), y: box.y + box.height / 2 - r * Math.cos(angle) };
}

/** Waits until the scene's link is this. @param {Page} page @param {string} link */
const linkIs = (page, link) => page.waitForFunction((want) => globalThis.__lesson?.session.link() === want, link);

const WINDS = /** @type {[number, number][]} */ ([[10, 20], [80, 45], [160, 24], [200, 8], [250, 33], [300, 50], [345, 12]]);

test('with SIMD and without it the numbers are the same', { skip: hasSimd() ? false : 'no SIMD here' }, async () => {
  const other = await load({ simd: true });
  let compared = 0;
  for (const link of ['', 'turns=right&wind=310/35', 'tas=220&altitude=14000&bank=20', 'leg=4nm&timing=groundspeed', 'heading=118&time=1:11']) {
    for (const choice of /** @type {MapChoice[]} */ ([{}, { plan: 'best' }, { plan: 'own' }, { mapped: 'inbound' }, { plan: 'track-30', less: 'drift-triple', most_kt: 100 }])) {
      const infos = [study, other].map((module) => {
        module.scene(link);
        module.map.begin(choice);
        while (!module.map.work(100000));
        return { info: module.map.info(), lines: module.map.lines().slice() };
      });
      assert.ok(Math.abs(infos[0].info.share - infos[1].info.share) < 1e-9, `${link} ${JSON.stringify(choice)}`);
      assert.equal(infos[0].lines.length, infos[1].lines.length);
      assert.ok(infos[0].lines.every((x, i) => Math.abs(x - infos[1].lines[i]) < 1e-4));
      for (const wind of WINDS) {
        const [a, b] = [study, other].map((module) => module.map.value(...wind));
        assert.equal(a === null, b === null);
        assert.ok(Math.abs((a ?? 0) - (b ?? 0)) < 1e-9, `${link} ${wind}: ${a} and ${b}`);
        compared += 1;
      }
    }
  }
  assert.equal(compared, 5 * 5 * WINDS.length);
});

lesson.test('the map comes when it is asked for, and has the values’ colours', { at: '?webgl=false' }, async (page) => {
  /** @type {string[]} */
  const asked = [];
  page.on('request', (request) => asked.push(new URL(request.url()).pathname.slice(1)));
  await atRest(page);
  assert.deepEqual(asked.filter((name) => /study|winds/.test(name)), [], 'nothing of it was fetched before');
  await page.locator('#to-winds').click();
  await whole(page);
  assert.ok(asked.some((name) => /^study(-simd)?\.wasm$/.test(name)));

  const map = mapInNode('', {});
  const { scale } = map.colours('light');
  const of = WINDS.map(([from, kt]) => map.value(from, kt));
  let compared = 0;
  (await colours(page, WINDS)).forEach((seen, i) => {
    // Nearer the middle the scale has finer steps than those that are told of it.
    if (Math.abs(of[i] ?? 0) < 0.15) return;
    compared += 1;
    const at = (Math.max(-1, Math.min(1, of[i] ?? 0)) + 1) * 16;
    const [low, high] = [scale[Math.floor(at)], scale[Math.ceil(at)]].map((hex) => [1, 3, 5].map((n) => Number.parseInt(hex.slice(n, n + 2), 16)));
    low.forEach((x, k) => {
      const want = x + (high[k] - x) * (at % 1);
      assert.ok(Math.abs(seen[k] - want) < 14, `${WINDS[i]}: ${of[i]} NM is ${seen}, not about ${low}`);
    });
    assert.equal(seen[3], 255);
  });
  assert.ok(compared >= 4);
  const { share } = map.info();
  assert.ok((await text(page, '#winds-share')).includes(`${Math.round(100 * share)} %`), await text(page, '#winds-share'));
  const now = await ask(page, 'report');
  await page.waitForFunction((want) => document.getElementById('winds-at')?.textContent?.includes(want), Math.abs(now.rollout.cross_nm).toFixed(2));
  assert.ok(await page.locator('#winds-lines .m-number').count() > 2);
  await atRest(page);
});

for (const [name, hand] of /** @type {const} */ ([['a mouse', mouse], ['a finger', finger]])) {
  lesson.test(`${name} drags the wind, in one step to undo`, { at: '?webgl=false#mode=winds&cloud=1', hasTouch: name === 'a finger' }, async (page) => {
    await whole(page);
    const held = await hand(page);
    const from = await placeOf(page, 160, 24);
    const to = await placeOf(page, 250, 40);
    await held.down(from);
    await held.move(from, to);
    await held.up();
    await linkIs(page, 'wind=250/40');
    await page.waitForFunction(() => /(^|[#&])wind=250\/40(&|$)/.test(location.hash) && location.hash.includes('mode=winds'));
    const { cross_nm } = (await ask(page, 'report')).rollout;
    await page.waitForFunction((want) => document.getElementById('winds-at')?.textContent?.includes(want), Math.abs(cross_nm).toFixed(2));
    await page.locator('#undo').click();
    await linkIs(page, '');
    await atRest(page);
    assert.equal(await page.locator('#undo').isDisabled(), true, 'one step');
    // A tap or a click beside it moves the wind there.
    const beside = await placeOf(page, 90, 30);
    await held.down(beside);
    await held.up();
    await linkIs(page, 'wind=90/30');
    await atRest(page);
  });
}

lesson.test('the wind is moved and read by keys alone, magnetic where the scene has it true', { at: '?webgl=false#mode=winds&windref=true&variation=10E&wind=170/24' }, async (page) => {
  await whole(page);
  const point = page.locator('#winds-point');
  await point.focus();
  for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowRight', 'PageUp', 'ArrowDown']) await page.keyboard.press(key);
  await page.waitForFunction(() => globalThis.__lesson?.session.report().fields.wind === '181/33');
  const { cross_nm } = (await ask(page, 'report')).rollout;
  await page.waitForFunction((want) => document.getElementById('winds-point')?.getAttribute('aria-valuetext')?.includes(want), Math.abs(cross_nm).toFixed(2));
  assert.equal(await point.getAttribute('aria-valuenow'), '33');
  assert.match(await point.getAttribute('aria-valuetext') ?? '', /171° at 33 kt/);
});

lesson.test('a wind too strong for the map keeps its speed where only its direction is changed', { at: '?webgl=false#mode=winds&wind=310/90' }, async (page) => {
  await whole(page);
  await page.locator('#winds-point').focus();
  for (const [key, wind] of [['ArrowRight', '315/90'], ['ArrowUp', '315/90'], ['End', '315/90'], ['ArrowDown', '315/89'], ['PageDown', '315/79'], ['Home', '315/0'], ['End', '315/60']]) {
    await page.keyboard.press(key);
    assert.equal((await ask(page, 'report')).fields.wind, wind, key);
  }
});

lesson.test('while another map is on its way each value is told in the words of its own', { at: '?webgl=false#mode=winds' }, async (page) => {
  await whole(page);
  const at = () => text(page, '#winds-at');
  await page.waitForFunction(() => document.getElementById('winds-at')?.textContent);
  await page.evaluate(() => {
    /** @type {Set<string>} */
    const seen = new Set();
    Object.defineProperty(globalThis, 'said', { get: () => [...seen] });
    const [place, point] = ['winds-at', 'winds-point'].map((id) => /** @type {HTMLElement} */ (document.getElementById(id)));
    new MutationObserver(() => seen.add(place.textContent ?? '').add(point.getAttribute('aria-valuetext') ?? ''))
      .observe(/** @type {Node} */ (place.parentNode), { subtree: true, childList: true, characterData: true });
  });
  const right = [await at()];
  for (const mapped of ['inbound', 'intercept', 'multiple', 'laps', 'miss']) {
    await page.locator('#winds-mapped').selectOption(mapped);
    await whole(page, `${mapped} drift-once`);
    await atRest(page);
    right.push(await at());
  }
  assert.equal(new Set(right).size, 5, right.join());
  assert.equal(right[5], right[0]);
  const said = await page.evaluate(() => /** @type {string[]} */ (/** @type {any} */ (globalThis).said));
  assert.deepEqual(said.map((words) => words.replace(/\s+/g, ' ')).filter((words) => !right.includes(words)), []);
  assert.ok(said.length >= 5);

  // So is a table that is asked for then.
  const coming = page.waitForEvent('download');
  await page.evaluate(() => {
    const mapped = /** @type {HTMLSelectElement} */ (document.getElementById('winds-mapped'));
    mapped.value = 'inbound';
    mapped.dispatchEvent(new Event('change'));
    document.getElementById('winds-csv')?.click();
  });
  const file = await coming;
  const map = mapInNode('', { mapped: 'inbound' });
  const [head, ...rows] = readCsv(readFileSync(await file.path(), 'utf8').replace(/^\uFEFF/, ''));
  assert.equal(file.suggestedFilename(), 'map-inbound-drift-once.csv');
  assert.equal(head[2], sayer(catalogue())('page.winds.csv.inbound'));
  for (const [from, kt, value] of rows) assert.ok(Math.abs(Number(value) - (map.value(Number(from), Number(kt)) ?? 0)) < 1e-9, `${from}/${kt}`);
});

lesson.test('a wind that is fixed stays; where another entry is flown there is a map and no cloud', { at: '?webgl=false&lock=wind#mode=winds&wind=200/20&entry=parallel&cloud=1' }, async (page) => {
  await whole(page);
  await page.locator('#winds-point').focus();
  await page.keyboard.press('PageUp');
  const beside = await placeOf(page, 90, 30);
  await page.mouse.click(beside.x, beside.y);
  await drawn(page);
  assert.equal((await ask(page, 'report')).fields.wind, '200/20');
  assert.equal(await page.locator('#winds-point').getAttribute('aria-disabled'), 'true');
  assert.ok(await page.locator('#winds-offset').isVisible());
  study.scene('wind=200/20&entry=parallel');
  const { why } = study.sensitivity();
  assert.equal(why, 'not-offset');
  await page.waitForFunction((said) => ['winds-cloud-says', 'winds-card-says'].every((id) => document.getElementById(id)?.textContent === said),
    sayer(catalogue())(`page.winds.why.${why}`));
  assert.equal(await page.locator('#winds-cloud-shares li').count(), 0);
});

lesson.test('slow maps come coarse first; the newest choice wins', { at: '?webgl=false#mode=winds&most=30' }, async (page) => {
  await whole(page);
  await page.evaluate(() => {
    const map = /** @type {HTMLElement} */ (document.getElementById('winds-map'));
    map.dataset.seen = '';
    new MutationObserver(() => { map.dataset.seen += `${map.dataset.about}:${map.dataset.directions},`; })
      .observe(map, { attributeFilter: ['data-directions', 'data-about'] });
  });
  await page.locator('#winds-mapped').selectOption('laps');
  await whole(page, 'laps drift-once');
  const steps = await page.evaluate(() => document.getElementById('winds-map')?.dataset.seen?.split(',').filter((x) => x.startsWith('laps')).map((x) => Number(x.split(':')[1])) ?? []);
  assert.ok(steps.length >= 2 && steps.every((n, i) => i === 0 || n >= steps[i - 1]) && steps[0] < 720, `coarse first: ${steps}`);
  assert.equal(steps.at(-1), 720);
  // Two more, the second before the first is done.
  await page.locator('#winds-mapped').selectOption('intercept');
  await page.locator('#winds-mapped').selectOption('inbound');
  await whole(page, 'inbound drift-once');
  const { share } = mapInNode('', { mapped: 'inbound', most_kt: 30 }).info();
  assert.ok((await text(page, '#winds-share')).includes(`${Math.round(100 * share)} %`));
  await atRest(page);
  assert.equal(await page.locator('#winds-map').getAttribute('data-about'), 'inbound drift-once');
});

lesson.test('without a worker the same is made in the page, and then nothing runs', {
  at: '?webgl=false#mode=winds&cloud=1',
  before: withoutWorker,
}, async (page) => {
  await whole(page);
  await page.locator('#winds-cloud-shares li').first().waitFor();
  const alone = await pixelsOf(page, '#winds-canvas');
  const says = await text(page, '#winds-cloud-says');
  await atRest(page);
  const timers = () => timersSet(page);
  const before = await timers();
  await atRest(page);
  assert.equal(await timers(), before, 'no timers at rest');
  const other = await lesson.open({ at: '?webgl=false#mode=winds&cloud=1' });
  await whole(other.page);
  await other.page.locator('#winds-cloud-shares li').first().waitFor();
  assert.equal(await other.page.evaluate(() => typeof Worker), 'function');
  assert.deepEqual(await pixelsOf(other.page, '#winds-canvas'), alone);
  assert.equal(await text(other.page, '#winds-cloud-says'), says);
  await other.close();
});

lesson.test('where the module cannot be had the mode says so, and tries anew when it is opened again', {
  at: '?webgl=false#mode=winds', mayComplain: true, before: (page) => page.route(/study.*\.wasm$/, (route) => route.abort()),
}, async (page) => {
  await page.locator('#winds-failed').waitFor({ state: 'visible' });
  assert.equal(await page.locator('#winds-body').isVisible(), false);
  await page.unroute(/study.*\.wasm$/);
  await page.locator('#to-explore').click();
  await page.locator('#mode-winds').waitFor({ state: 'hidden' });
  await page.locator('#to-winds').click();
  await whole(page);
  await page.locator('#winds-card td').first().waitFor();
});

lesson.test('the address says what is shown, and restores it; the cloud has the module’s numbers', { at: '?webgl=false#wind=340/20&mode=winds&map=inbound&plan=own&most=100&cloud=7&spread=10,3,2,4,6,1' }, async (page) => {
  await whole(page, 'inbound own');
  await page.locator('#winds-cloud-shares li').first().waitFor();
  study.scene('wind=340/20');
  study.cloud.begin({ 'wind-from': 10, 'wind-speed': 3, heading: 2, clock: 4, speed: 6, 'turn-start': 1 }, 7);
  study.cloud.fly(10000);
  study.cloud.share(4000);
  const { inside_share, cross_shares } = study.cloud.info(0.25);
  assert.ok((await text(page, '#winds-cloud-says')).includes(`${Math.round(100 * inside_share)} %`), await text(page, '#winds-cloud-says'));
  const shares = await page.locator('#winds-cloud-shares li strong').allTextContents();
  assert.deepEqual(shares.map((said) => Number.parseInt(said, 10)), [...(cross_shares?.rows ?? []), { share: cross_shares?.together ?? 0 }]
    .map(({ share }) => Math.round(100 * Math.max(0, share))));

  // The card: one row each, both ways.
  const { rows } = study.sensitivity();
  assert.ok(rows);
  const cells = await page.locator('#winds-card tbody tr').first().locator('td').allTextContents();
  [rows[0].more, rows[0].less].forEach(({ cross_nm }, i) => {
    assert.equal(Math.abs(Number.parseFloat(cells[i].replace('−', '-'))), Number(Math.abs(cross_nm ?? 0).toFixed(2)), cells[i]);
  });

  // Over the picture, and with it.
  const inked = async () => {
    const { data, width } = await pixelsOf(page, '.cloud-layer');
    let [sum, x] = [0, 0];
    for (let i = 3; i < data.length; i += 4) {
      sum += data[i];
      x += data[i] * ((i >> 2) % width);
    }
    return sum && x / sum;
  };
  assert.ok(await inked() > 0);
  const before = await inked();
  await page.locator('#zoom-in').click();
  await atRest(page);
  assert.notEqual(await inked(), before);
  await page.locator('#winds-cloud-again').click();
  await page.waitForFunction(() => location.hash.includes('cloud=8'));
  assert.match(await page.evaluate(() => location.hash), /map=inbound&plan=own&most=100&cloud=8&spread=10%2C3%2C2%2C4%2C6%2C1/);
  await page.locator('#winds-clock').fill('soon');
  await page.locator('#winds-clock').press('Enter');
  await page.waitForFunction(() => /soon/.test(document.getElementById('winds-cloud-problem')?.textContent ?? ''));
  assert.equal(await page.locator('#winds-clock').inputValue(), '5');
  await page.locator('label:has(#winds-cloud)').click();
  await page.waitForFunction(() => !document.querySelector('.cloud-layer') && !location.hash.includes('cloud'));
});

lesson.test('the map is taken away as a table and as a picture', { at: '?webgl=false#mode=winds&plan=drift-triple' }, async (page) => {
  await whole(page, 'miss drift-triple');
  await page.locator('#mode-winds details > summary').click();
  /** @param {string} press */
  const taken = async (press) => {
    const waiting = page.waitForEvent('download');
    await page.locator(press).click();
    return readFileSync(await (await waiting).path(), 'utf8');
  };
  const [head, ...rows] = readCsv((await taken('#winds-csv')).replace(/^\uFEFF/, ''));
  assert.equal(head.length, 3);
  assert.equal(rows.length, 72 * 13);
  const map = mapInNode('', { plan: 'drift-triple' });
  for (const [from, kt, value] of rows) assert.ok(Math.abs(Number(value) - (map.value(Number(from), Number(kt)) ?? 0)) < 1e-9, `${from}/${kt}`);
  const svg = await taken('#winds-svg');
  const wide = await page.evaluate(async (source) => {
    const image = new Image();
    image.src = URL.createObjectURL(new Blob([source], { type: 'image/svg+xml' }));
    await image.decode();
    return image.naturalWidth;
  }, svg);
  assert.ok(wide > 300, 'it is a picture');
  assert.equal(svg.match(/<image [^>]*href="data:image\/png/g)?.length, 1);
  assert.equal(svg.match(/class="m-line/g)?.length, 2);
  assert.ok(svg.includes('Drift three times'));
  // Its numbers come when another mode is open, one that is there already.
  await page.locator('#to-card').click();
  await page.locator('#mode-card').waitFor();
  await page.locator('#to-winds').click();
  await whole(page);
  const late = page.waitForEvent('download');
  await page.evaluate(() => {
    document.getElementById('winds-csv')?.click();
    document.getElementById('to-card')?.click();
  });
  assert.equal((await late).suggestedFilename(), 'map-miss-drift-once.csv');
});
