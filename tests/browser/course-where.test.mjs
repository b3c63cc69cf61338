// Where a course may stand: real windows and frames around the real page, of one origin and of two.
import assert from 'node:assert/strict';
import { copyFile, mkdtemp, readdir, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { STUB } from './course-page.mjs';
import { PATIENCE_MS, SITE, launch } from './lesson.mjs';

/** @typedef {import('playwright-core').Page | import('playwright-core').Frame} Place A window or a frame with the lesson. */

// The course's pages lie beside the lesson. They are really served: the browser keeps others from loopback.
const folder = await mkdtemp(join(tmpdir(), 'where-'));
for (const name of await readdir(SITE)) await symlink(join(SITE, name), join(folder, name));
await copyFile(STUB, join(folder, 'course-stub.mjs'));
const course = await serve(folder);
// Another origin. Frames with no origin of their own get modules only from a server that lets them.
const other = await serve(SITE, 0, { 'Access-Control-Allow-Origin': '*' });
const browser = await launch({ gl: false });
after(async () => {
  await browser.close();
  await Promise.all([course.close(), other.close(), rm(folder, { recursive: true })]);
});

/** The page in a package, and the page in the open. */
const PACKED = 'index.html?webgl=false&lms=1&mode=practice&check=1&set=mixed';
const PLAIN = 'index.html?webgl=false&mode=practice';

const API = 'globalThis.stub = strictCourse(); globalThis.API = stub.api;';
/** @param {string[]} srcs @param {string} [more] */
const frames = (srcs, more = '') => srcs.map((src) => `<iframe title="Lesson" ${more} width="600" height="400" src="${src}"></iframe>`).join('');
/** @param {string} target */
const opens = (target) => `<button onclick="window.open('${target}')">Open</button>`;

/**
 * The course's pages by name; the first is where the person is.
 * @typedef {{script?: string, body: string}} Host
 * @type {{where: string, found: boolean, hosts: Host[]}[]}
 */
const CASES = [
  { where: 'around the page', found: true, hosts: [{ script: API, body: frames([PACKED]) }] },
  { where: 'around the frame around it', found: true, hosts: [{ script: API, body: frames(['host-1.html']) }, { body: frames([PACKED]) }] },
  { where: 'in the window that opened it', found: true, hosts: [{ script: API, body: opens(PACKED) }] },
  { where: 'around the frame that opened it', found: true, hosts: [{ script: API, body: frames(['host-1.html']) }, { body: opens(PACKED) }] },
  { where: 'in the window that opened the one around it', found: true, hosts: [{ script: API, body: opens('host-1.html') }, { body: frames([PACKED]) }] },
  { where: 'around the page, of another origin', found: false, hosts: [{ script: API, body: frames([other.url + PACKED, other.url + PLAIN]) }] },
  { where: 'in the window that opened it, of another origin', found: false, hosts: [{ script: API, body: opens(other.url + PACKED) }] },
  { where: 'around a sandbox of scripts alone', found: false,
    hosts: [{ script: API, body: frames([other.url + PACKED, other.url + PLAIN], 'sandbox="allow-scripts"') }] },
  { where: 'around the page, and throws when it is looked for', found: false, hosts: [{
    script: `${API} const { api } = stub; Object.defineProperty(globalThis, 'API', { get() { if (globalThis.mended) return api; throw new Error('no'); } });`,
    body: frames([PACKED, PLAIN]) }] },
];

/** @param {Host} host */
const html = ({ script = '', body }) => `<!doctype html><title>Course</title><body><script type="module">
import { strictCourse } from './course-stub.mjs';
${script}
document.body.insertAdjacentHTML('beforeend', ${JSON.stringify(body)});
</script>`;

/** The lesson's places with this query, once they are ready. @param {import('playwright-core').BrowserContext} context @param {string} query */
async function placeOf(context, query) {
  // The page moves other keys of its query behind the #.
  const place_of = (/** @type {string} */ text) => {
    const { pathname, searchParams } = new URL(text, `${course.url}index.html`);
    return `${pathname.split('/').at(-1)} ${searchParams.get('lms')}`;
  };
  for (const until = Date.now() + PATIENCE_MS; Date.now() < until;) {
    const place = context.pages().flatMap((page) => page.frames()).find((frame) => place_of(frame.url()) === place_of(query));
    if (place) {
      await place.waitForFunction(() => document.documentElement.dataset.ready === 'core');
      return place;
    }
    await new Promise((done) => { setTimeout(done, 50); });
  }
  throw new Error(`no place has ${query}`);
}

/** @param {Place} place */
const strip = (place) => place.evaluate(() => ({
  shows: document.getElementById('course')?.checkVisibility(),
  said: document.getElementById('course-said')?.textContent,
  retry: document.getElementById('course-retry')?.checkVisibility(),
  diagnosis: /** @type {HTMLTextAreaElement} */ (document.getElementById('course-diagnosis')).value,
  quiet: document.getElementById('practice-kept')?.textContent,
}));

for (const { where, found, hosts } of CASES) {
  test(`a course ${where}: ${found ? 'found' : 'not found, and said'}`, { timeout: 3 * PATIENCE_MS }, async () => {
    for (const [n, host] of hosts.entries()) await writeFile(join(folder, `host-${n}.html`), html(host));
    const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, serviceWorkers: 'block' });
    context.setDefaultTimeout(PATIENCE_MS);
    const page = await context.newPage();
    await page.goto(`${course.url}host-0.html`);
    // Whoever opens a window does so by a press.
    for (const [n, { body }] of hosts.entries()) {
      if (!body.startsWith('<button')) continue;
      const host = n === 0 ? page.mainFrame() : await page.waitForSelector('iframe').then((frame) => frame.contentFrame());
      await host?.locator('button').click();
    }
    const place = await placeOf(context, PACKED);
    const now = await strip(place);
    if (found) {
      assert.match(now.said ?? '', /Connected to your course/);
      assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).stub.kept()['cmi.core.lesson_status']), 'incomplete');
    } else {
      assert.match(now.said ?? '', /none was found/);
      assert.deepEqual([now.shows, now.retry], [true, true]);
      assert.match(now.diagnosis, /No object API/);
    }
    if (hosts[0].body.includes(PLAIN)) {
      const plain = await strip(await placeOf(context, PLAIN));
      assert.equal(plain.shows, false);
      assert.match(plain.quiet ?? '', /^Not connected to a course|^This browser keeps nothing/);
    }
    // What could not be looked for at first may be found later.
    if (hosts[0].script?.includes('mended')) {
      await page.evaluate(() => { /** @type {any} */ (globalThis).mended = true; });
      await place.locator('#course-retry').click();
      await place.waitForFunction(() => /Connected/.test(document.getElementById('course-said')?.textContent ?? ''));
      assert.match((await strip(place)).quiet ?? '', /kept by your course/);
    }
    await context.close();
  });
}
