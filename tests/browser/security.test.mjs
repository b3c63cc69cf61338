// The page's policy: written as it should be, enforced, and nothing asked of others; texts from
// without stay texts; the sources have no way round it; what a server can add.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import { describe, it, test } from 'node:test';
import { serve } from '../../web/serve.mjs';
import { hostServer } from './frames.mjs';
import { SITE, VIEWS, drawn, isReady, lessons, openView, report } from './lesson.mjs';

const lesson = await lessons();
const MODES = ['lesson', 'explore', 'practice', 'fly', 'winds', 'card', 'teach'];

/** @typedef {import('./lesson.mjs').Page} Page */

// --- the policy, written ---------------------------------------------------------------------

/** @type {Record<string, string[]>} */
const READ_ONLY = { 'default-src': ["'none'"], 'script-src': ["'self'"], 'style-src': ["'self'"], 'img-src': ["'self'", 'data:'],
  'font-src': ["'self'"], 'base-uri': ["'none'"], 'form-action': ["'none'"] };
/** @type {Record<string, Record<string, string[]>>} */
const POLICIES = {
  'index.html': { ...READ_ONLY, 'script-src': ["'self'", "'wasm-unsafe-eval'"], 'img-src': ["'self'", 'data:', 'blob:'],
    'connect-src': ["'self'"], 'worker-src': ["'self'"], 'manifest-src': ["'self'"] },
  'lesson.html': READ_ONLY,
  'sources.html': READ_ONLY,
  'study.html': { ...READ_ONLY, 'script-src': ["'self'", "'wasm-unsafe-eval'"], 'connect-src': ["'self'"], 'worker-src': ["'self'"] },
  // Its own scripts and style by their hashes, and nothing that could be fetched.
  '../lesson-offline.html': { 'default-src': ["'none'"], 'script-src': ['HASH', 'HASH', "'wasm-unsafe-eval'"], 'style-src': ['HASH'],
    'img-src': ['data:', 'blob:'], 'font-src': ['data:'], 'base-uri': ["'none'"], 'form-action': ["'none'"] },
};

/** @param {string} html */
function policyOf(html) {
  const [before, after] = html.split('<meta http-equiv="Content-Security-Policy" content="');
  assert.ok(after, 'a policy');
  assert.doesNotMatch(before, /<(script|link|style)/, 'before anything that it is to hold for');
  return Object.fromEntries(after.slice(0, after.indexOf('"')).split('; ').map((directive) => {
    const [name, ...sources] = directive.split(' ');
    return [name, sources.map((source) => source.replace(/^'sha256-[\w+/=]{44}'$/, 'HASH'))];
  }));
}

describe('the policy', () => {
  it('stands in every page there is, directive by directive', () => {
    assert.deepEqual(readdirSync(SITE, { recursive: true }).map(String).filter((name) => extname(name) === '.html').sort(),
      Object.keys(POLICIES).filter((name) => !name.startsWith('..')));
    for (const [name, policy] of Object.entries(POLICIES)) {
      assert.deepEqual(policyOf(readFileSync(join(SITE, name), 'utf8')), policy, name);
    }
  });

  it('is kept by the pages: no script, style or handler of theirs stands in the HTML', () => {
    for (const name of Object.keys(POLICIES).filter((page) => !page.startsWith('..'))) {
      const html = readFileSync(join(SITE, name), 'utf8');
      assert.deepEqual(html.match(/<script(?![^>]* src=)[^>]*>|<style|<[a-z][^>]*\s(?:on[a-z]+|style)=|javascript:/gi) ?? [], [], name);
    }
  });
});

// --- the policy, enforced --------------------------------------------------------------------

lesson.test('what the policy forbids is blocked', { at: '?webgl=false', mayComplain: true }, async (page) => {
  let asked_elsewhere = 0;
  const other_server = createServer((_, response) => {
    asked_elsewhere += 1;
    response.end();
  });
  await new Promise((done) => { other_server.listen(0, '127.0.0.1', () => done(null)); });
  const address = other_server.address();
  const elsewhere = `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}/`;
  await page.evaluate((other) => {
    const seen = /** @type {any} */ (globalThis);
    seen.blocked = [];
    seen.did = [];
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => seen.blocked.push(effectiveDirective));
    /** @param {string} tag @param {Record<string, string>} attributes @param {string} [text] */
    const add = (tag, attributes, text = '') => {
      const made = document.createElement(tag);
      for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
      made.textContent = text;
      document.body.append(made);
      return made;
    };
    add('script', {}, 'did.push("inline script")');
    add('button', { onclick: 'did.push("inline handler")' }).click();
    add('style', {}, 'body { opacity: 0.5 }');
    add('script', { src: `${other}early.js` });
    add('img', { src: `${other}icon.svg`, alt: '' });
    add('iframe', { src: other, title: 'other' });
    add('link', { rel: 'stylesheet', href: `${other}page.css` });
    fetch(other).then(() => seen.did.push('fetch'), () => {});
    // Out of the test's own reach, where the page's policy holds.
    setTimeout(() => {
      try {
        eval('did.push("eval")');
      } catch {
        seen.blocked.push('eval threw');
      }
    }, 0);
  }, elsewhere);
  const all = ['script-src-elem', 'script-src-attr', 'style-src-elem', 'img-src', 'frame-src', 'connect-src', 'script-src', 'eval threw'];
  await page.waitForFunction((want) => want.every((name) => /** @type {any} */ (globalThis).blocked.includes(name)), all)
    .catch(async () => assert.deepEqual(await page.evaluate(() => /** @type {any} */ (globalThis).blocked), all));
  assert.deepEqual(await page.evaluate(() => /** @type {any} */ (globalThis).did), []);
  assert.equal(await page.evaluate(() => getComputedStyle(document.body).opacity), '1');
  other_server.close();
  assert.equal(asked_elsewhere, 0, 'and nothing was asked of the other origin');
});

lesson.test('every mode and view asks only where the page came from', {}, async (page) => {
  /** @type {string[]} */
  const asked = [];
  page.on('request', (request) => asked.push(request.url()));
  page.on('websocket', (socket) => asked.push(socket.url()));
  await page.reload();
  await isReady(page, 'view');
  for (const mode of MODES) {
    await page.locator(`#to-${mode}`).click();
    await page.waitForFunction((want) => document.body.dataset.mode === want, mode);
    await drawn(page);
  }
  await page.locator('#to-explore').click();
  for (const view of VIEWS) await openView(page, view);
  await page.locator('#play').click();
  await page.locator('#to-practice').click();
  await page.locator('#practice-check').click();
  await page.locator('#practice-question').waitFor();
  assert.ok(asked.length > 50, 'the page was watched while it loaded');
  assert.deepEqual(asked.filter((url) => new URL(url).origin !== new URL(lesson.url).origin && !/^(data|blob):/.test(url)), []);
});

// --- texts from without ----------------------------------------------------------------------

const HOSTILE = '<img src=x onerror="globalThis.hit=1"><svg onload="globalThis.hit=2"></svg>"\'--><script>hit=3</script>';

/** Nothing came of the hostile text but text. @param {Page} page @param {string} what */
async function stayedText(page, what) {
  await drawn(page);
  assert.deepEqual(await page.evaluate(() => [...document.querySelectorAll('img, body script, [onerror], [onload]')].map((el) => el.outerHTML)), [], what);
  assert.equal(await page.evaluate(() => /** @type {any} */ (globalThis).hit), undefined, what);
}

lesson.test('hostile text in every key of a link stays text, in every mode and view', { at: '?webgl=false', mayComplain: true }, async (page, complaints) => {
  const link_keys = [...Object.keys((await report(page)).scenario), 'v'];
  assert.ok(link_keys.length > 30);
  const keys = [...link_keys, 'view', 'mode', 'set', 'code', 'step', 'check', 'hide', 'lock', 'embed', 'host', HOSTILE];
  const link = keys.map((key) => `${encodeURIComponent(key)}=${encodeURIComponent(HOSTILE)}`).join('&');
  await page.goto(`${lesson.url}?webgl=false&${link}`);
  await isReady(page, 'core');
  assert.match(await page.locator('#problems').innerText(), /<img/, 'it is quoted where it was refused');
  assert.match(await page.locator('#instructor-unknown').innerText(), /<img/);
  for (const view of VIEWS) {
    await openView(page, view);
    await stayedText(page, view);
  }
  for (const mode of MODES) {
    await page.goto(`${lesson.url}?webgl=false#${link}&mode=${mode}`);
    await isReady(page, 'core');
    await stayedText(page, mode);
  }
  // The question set of that name is looked for, on the page's own server.
  assert.deepEqual(complaints.filter((words) => !/status of 404/.test(words)), []);
});

lesson.test('hostile text in a question set, a progress file, a clearance and a wind report stays text', { at: '?webgl=false#mode=practice' }, async (page) => {
  const set = (/** @type {object} */ more) => JSON.stringify({ format: 1, id: 'own', version: 1, title: HOSTILE, about: HOSTILE, skills: ['entry'], ...more });
  const file = (/** @type {string} */ content) => ({ name: `${HOSTILE}.json`, mimeType: 'application/json', buffer: Buffer.from(content) });
  await page.locator('#practice-file').setInputFiles(file(set({})));
  await page.waitForFunction((words) => [...document.querySelectorAll('#practice-set option')].some(({ textContent }) => textContent === words), HOSTILE);
  await stayedText(page, 'a set that is taken');
  await page.locator('#practice-file').setInputFiles(file(set({ skills: [HOSTILE], [HOSTILE]: HOSTILE })));
  await page.waitForFunction(() => /<img/.test(document.getElementById('practice-set-problems')?.textContent ?? ''));
  await stayedText(page, 'a set that is refused');
  for (const progress of [HOSTILE, JSON.stringify({ format: HOSTILE, [HOSTILE]: HOSTILE }), JSON.stringify({ format: 1, skills: { [HOSTILE]: HOSTILE } })]) {
    await page.locator('#practice-import').setInputFiles(file(progress));
    await page.waitForFunction(() => document.getElementById('practice-import-problems')?.textContent);
    await stayedText(page, `progress ${progress.slice(0, 20)}`);
  }
  await page.locator('#to-explore').click();
  for (const view of ['clearance', 'wind']) {
    await openView(page, view);
    await page.locator(`#${view}-said`).fill(`${HOSTILE} 27015KT hold northeast`);
    await stayedText(page, view);
  }
});

lesson.test('hostile messages of a host stay text', { at: '?webgl=false' }, async (page) => {
  await page.route('**/host.html', (route) => route.fulfill({ contentType: 'text/html',
    body: `<!doctype html><title>Host</title><iframe title="Lesson" src="./?webgl=false&amp;host=${new URL(lesson.url).origin}"></iframe>` }));
  await page.goto(`${lesson.url}host.html`);
  const frame = await (await page.waitForSelector('iframe')).contentFrame();
  assert.ok(frame);
  await frame.waitForFunction(() => document.documentElement.dataset.ready === 'core');
  await page.evaluate((text) => {
    const { contentWindow } = /** @type {HTMLIFrameElement} */ (document.querySelector('iframe'));
    for (const more of [{ kind: 'scene', link: `${text}=${text}&fix=${text}&wind=90/11` }, { kind: 'mode', mode: text }, { kind: text }, { kind: 'report', id: text }]) {
      contentWindow?.postMessage({ lesson: 'holding-entry', v: 1, ...more }, '*');
    }
  }, HOSTILE);
  await frame.waitForFunction(() => /wind=90\/11/.test(location.hash) && /<img/.test(document.getElementById('problems')?.textContent ?? ''));
  await stayedText(/** @type {any} */ (frame), 'a message');
});

// --- the sources -----------------------------------------------------------------------------

/** Ways from a text to a page or a program. */
const WAYS = /\b(?:innerHTML|outerHTML|insertAdjacentHTML|createContextualFragment|setHTMLUnsafe|parseFromString|srcdoc)\b|document\.write|\beval\(|\bnew Function\b|\bset(?:Timeout|Interval)\(\s*['"`]|javascript:|setAttribute\(\s*['"](?:style|on)|\s(?:on[a-z]+|style)=["']/g;
/** Where one of them stands and may, with what stands there. */
const ALLOWED = new Map([
  // SVG that the core wrote, read as SVG; scripts in it would be under the policy.
  ['shell/dom.js', ['parseFromString']],
  // Text of a snippet for another page; it does not become markup here.
  ['shell/teach-embed.js', [' style="']],
]);

describe('the sources', () => {
  it('have no way from a text to markup or program but the ones named here', () => {
    const root = new URL('../../', import.meta.url);
    /** @type {Map<string, string[]>} */
    const found = new Map();
    for (const folder of ['shell', 'web']) {
      for (const name of readdirSync(new URL(folder, root), { recursive: true }).map(String)) {
        if (!/\.(m?js|html|cpp)$/.test(name)) continue;
        const ways = readFileSync(new URL(`${folder}/${name}`, root), 'utf8').match(WAYS);
        if (ways) found.set(`${folder}/${name}`, ways);
      }
    }
    assert.deepEqual(found, ALLOWED);
  });

  it('the search itself finds what it is to find', () => {
    for (const bad of ['a.innerHTML = b', 'document.write(x)', 'eval(x)', 'new Function(x)', "setTimeout('x')", '<p style="a">', '<a onclick="b">', 'href="javascript:x"']) {
      assert.match(bad, new RegExp(WAYS), bad);
    }
  });
});

// --- what a server can add -------------------------------------------------------------------

const DOC = readFileSync(new URL('../../docs/embedding.md', import.meta.url), 'utf8');
const SERVER = /```nginx\n([^]*?)```/.exec(DOC)?.[1] ?? '';
const HEADERS = Object.fromEntries([...SERVER.matchAll(/add_header ([\w-]+) "([^"]*)"/g)].map(([, name, value]) => [name, value]));

test('the server of the document: its types and headers are those that the page is tried with', async () => {
  const types = new Map([...SERVER.matchAll(/([\w-]+\/[\w.+-]+)((?: [a-z0-9]+)+);/g)].flatMap(([, type, endings]) => endings.trim().split(' ').map((ending) => [ending, type])));
  for (const file of readdirSync(SITE, { recursive: true, withFileTypes: true })) {
    if (!file.isFile()) continue;
    const ending = extname(file.name).slice(1);
    assert.ok(types.has(ending) || ['txt', 'xsd', 'xml'].includes(ending), `${file.name} has a type`);
  }
  for (const name of ['main.js', 'core.mjs', 'core.wasm', 'page.css', 'manifest.webmanifest', 'icon.svg', 'files.json']) {
    const { headers } = await fetch(lesson.url + name, { method: 'HEAD' });
    assert.equal(headers.get('content-type')?.split(';')[0], types.get(extname(name).slice(1)), name);
    for (const header of ['X-Content-Type-Options', 'Referrer-Policy', 'Permissions-Policy']) assert.equal(headers.get(header), HEADERS[header], header);
  }
});

test('with those headers the host that is named may frame the page, and no other', async () => {
  const host = await hostServer();
  const written = HEADERS['Content-Security-Policy'];
  for (const [policy, may] of /** @type {const} */ ([[written.replace('https://school.example', host.origin), true], [written, false]])) {
    const site = await serve(SITE, 0, { ...HEADERS, 'Content-Security-Policy': policy });
    host.show(`<!doctype html><title>Host</title><iframe title="Lesson" src="${site.url}?webgl=false"></iframe>`);
    const page = await lesson.browser.newPage();
    /** @type {string[]} */
    const complaints = [];
    page.on('console', (message) => complaints.push(message.text()));
    await page.goto(host.origin);
    const frame = await (await page.waitForSelector('iframe')).contentFrame();
    assert.ok(frame);
    if (may) await frame.waitForFunction(() => document.documentElement.dataset.ready === 'core');
    else assert.match(complaints.join(), /frame-ancestors/);
    assert.equal(await frame.locator('#picture').count(), may ? 1 : 0);
    await page.close();
    await site.close();
  }
  host.close();
});
