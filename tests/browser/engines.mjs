// Three engines behind one small handle: Chromium by Playwright, Firefox by Puppeteer
// (WebDriver BiDi), WebKitGTK by Selenium and its own driver. All are Debian's packages.
// The latter two need a window: each gets an X display of its own (Xvfb), since Firefox
// has no WebGL without one and WebKit's MiniBrowser does not start.
import { execFileSync, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import puppeteer from 'puppeteer-core';
import { Builder, By, Capabilities, Key, Origin } from 'selenium-webdriver';
import { pinch } from './hands.mjs';
import { PATIENCE_MS, isOfIcon, launch } from './lesson.mjs';

/** @typedef {{x: number, y: number}} Place CSS pixels in the window. */

/**
 * @typedef {object} Driver What each engine's own driver has to bring.
 * @property {(url: string) => Promise<unknown>} goto
 * @property {(expression: string) => Promise<unknown>} run An expression, a promise's too, to
 *   what JSON can hold of it.
 * @property {(selector: string) => Promise<unknown>} click With the mouse, where the element is.
 * @property {(selector: string) => Promise<unknown>} enter A frame, for `run` and `click`; `goto` and `leave` lead out.
 * @property {() => Promise<unknown>} leave
 * @property {(from: Place, to: Place) => Promise<unknown>} drag
 * @property {(key: string) => Promise<unknown>} key A character, or a name such as `Tab`.
 * @property {() => Promise<Buffer>} screenshot The window as PNG.
 * @property {(width: number, height: number) => Promise<unknown>} resize The page's room in the window, about.
 * @property {(about: Place, before: number, after: number) => Promise<unknown>} [pinch] Two fingers, pixels between them.
 * @property {() => Promise<{heap: number, nodes: number, listeners: number}>} [memory] What is left after its garbage is collected.
 * @property {() => Promise<unknown>} close
 * @property {() => string[] | Promise<string[]>} complaints Errors and warnings that the page wrote since the last look.
 */

/** @typedef {Awaited<ReturnType<typeof startEngine>>} Engine */

const WIDTH = 1280;
const HEIGHT = 860;
const DRAG_STEPS = 4;

/** What engines say about themselves, not about the page. */
const NOT_OURS = /GPU stall due to ReadPixels|software WebGL|WebGL warning|WEBGL_debug_renderer_info/i;

/** @param {string} name @param {string} debian_package */
function program(name, debian_package) {
  try {
    return execFileSync('sh', ['-c', `command -v ${name}`], { encoding: 'utf8' }).trim();
  } catch {
    throw new Error(`${name} is not there. ./tests/run.sh installs it; by hand: apt-get install ${debian_package}`);
  }
}

/** @param {Place} from @param {Place} to */
const way = (from, to) => Array.from({ length: DRAG_STEPS }, (_, i) => {
  const part = (i + 1) / DRAG_STEPS;
  return { x: Math.round(from.x + (to.x - from.x) * part), y: Math.round(from.y + (to.y - from.y) * part) };
});

// --- processes of ours ------------------------------------------------------------------

/** Ends with all that it started, at the latest with this process. @type {Set<number>} */
const groups = new Set();

/** @param {number} pid @param {NodeJS.Signals} signal */
function signalGroup(pid, signal) {
  try {
    process.kill(-pid, signal);
  } catch {
    // It has ended by itself.
  }
}
process.on('exit', () => {
  for (const pid of groups) signalGroup(pid, 'SIGKILL');
});
// A signal ends Node without 'exit' unless somebody listens.
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.once(signal, () => process.exit(1));

/**
 * A program in a process group of its own.
 * @param {string} command @param {string[]} args @param {import('node:child_process').SpawnOptions} options
 */
function startGroup(command, args, options) {
  const child = spawn(command, args, { ...options, detached: true });
  const { pid } = child;
  if (pid) groups.add(pid);
  return {
    child,
    async stop() {
      if (!pid) return;
      const ended = child.exitCode !== null || child.signalCode !== null || new Promise((done) => child.once('exit', done));
      signalGroup(pid, 'SIGTERM');
      await Promise.race([ended, sleep(3000, undefined, { ref: false })]);
      signalGroup(pid, 'SIGKILL');
      groups.delete(pid);
    },
  };
}

/** An X display that nobody sees. */
async function startDisplay() {
  // It chooses a free number, and says it on descriptor 3 once it answers.
  const server = startGroup(program('Xvfb', 'xvfb'), ['-displayfd', '3', '-screen', '0', '1400x1100x24', '-nolisten', 'tcp'],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const said = /** @type {import('node:stream').Readable} */ (server.child.stdio[3]);
  const name = await new Promise((done, fail) => {
    said.once('data', (number) => done(`:${String(number).trim()}`));
    server.child.once('error', fail);
    server.child.once('exit', (code) => fail(new Error(`Xvfb ended with ${code}`)));
  });
  return { name: String(name), stop: server.stop };
}

/** @returns {Promise<number>} */
const freePort = () => new Promise((done, fail) => {
  const server = createServer().once('error', fail).listen(0, '127.0.0.1', () => {
    const address = server.address();
    server.close(() => done(typeof address === 'object' && address ? address.port : 0));
  });
});

// --- the three --------------------------------------------------------------------------

/**
 * @typedef {object} Frame What Playwright's frames and Puppeteer's have alike.
 * @property {(expression: string) => Promise<unknown>} evaluate
 * @property {(selector: string) => Promise<void>} click
 */

/**
 * The page, or the frame in it that was entered last.
 * @param {{goto: (url: string) => Promise<unknown>, mainFrame: () => Frame}} page
 * @param {(selector: string) => Promise<{contentFrame: () => Promise<Frame | null>} | null>} find
 */
function framed(page, find) {
  let frame = page.mainFrame();
  return {
    /** @param {string} url */
    goto(url) {
      frame = page.mainFrame();
      return page.goto(url);
    },
    /** @param {string} expression */
    run: (expression) => frame.evaluate(expression),
    /** @param {string} selector */
    click: (selector) => frame.click(selector),
    /** @param {string} selector */
    async enter(selector) {
      const inner = await (await find(selector))?.contentFrame();
      if (!inner) throw new Error(`no frame ${selector}`);
      frame = inner;
    },
    async leave() {
      frame = page.mainFrame();
    },
  };
}

/** @returns {Promise<Driver>} */
async function chromium() {
  const browser = await launch();
  const page = await browser.newPage({ viewport: { width: WIDTH, height: HEIGHT } });
  /** @type {import('playwright-core').CDPSession | null} */
  let devtools = null;
  /** @type {string[]} */
  const complaints = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type()) && !isOfIcon(message)) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error.stack ?? error)));
  return {
    complaints: () => complaints.splice(0),
    ...framed(page, (selector) => page.locator(selector).elementHandle()),
    async drag(from, to) {
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      for (const at of way(from, to)) await page.mouse.move(at.x, at.y);
      await page.mouse.up();
    },
    key: (key) => page.keyboard.press(key),
    screenshot: () => page.screenshot(),
    resize: (width, height) => page.setViewportSize({ width, height }),
    pinch: (about, before, after) => pinch(page, about, before, after),
    async memory() {
      devtools ??= await page.context().newCDPSession(page);
      // Once more for what the first round let go.
      for (let round = 0; round < 2; round += 1) await devtools.send('HeapProfiler.collectGarbage');
      const { usedSize } = await devtools.send('Runtime.getHeapUsage');
      const { nodes, jsEventListeners } = await devtools.send('Memory.getDOMCounters');
      return { heap: usedSize, nodes, listeners: jsEventListeners };
    },
    close: () => browser.close(),
  };
}

/** @returns {Promise<Driver>} */
async function firefox() {
  const executablePath = program('firefox-esr', 'firefox-esr');
  const display = await startDisplay();
  try {
    const browser = await puppeteer.launch({
      browser: 'firefox', executablePath, headless: false, env: { ...process.env, DISPLAY: display.name, MOZ_ENABLE_WAYLAND: '0' },
      // Puppeteer lets files read each other; a person's Firefox does not.
      extraPrefsFirefox: { 'security.fileuri.strict_origin_policy': true },
    });
    const child = browser.process();
    if (child?.pid) groups.add(child.pid);
    const page = await browser.newPage();
    await page.setViewport({ width: WIDTH, height: HEIGHT });
    page.setDefaultTimeout(PATIENCE_MS);
    /** @type {string[]} */
    const complaints = [];
    page.on('console', (message) => {
      if (['error', 'warn'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(String(error.stack ?? error)));
    return {
      complaints: () => complaints.splice(0),
      ...framed(page, (selector) => page.$(selector)),
      async drag(from, to) {
        await page.mouse.move(from.x, from.y);
        await page.mouse.down();
        for (const at of way(from, to)) await page.mouse.move(at.x, at.y);
        await page.mouse.up();
      },
      key: (key) => page.keyboard.press(/** @type {import('puppeteer-core').KeyInput} */ (key === 'Space' ? ' ' : key)),
      screenshot: async () => Buffer.from(await page.screenshot()),
      resize: (width, height) => page.setViewport({ width, height }),
      async close() {
        await browser.close();
        if (child?.pid) {
          signalGroup(child.pid, 'SIGKILL');
          groups.delete(child.pid);
        }
        await display.stop();
      },
    };
  } catch (error) {
    await display.stop();
    throw error;
  }
}

/** Names of keys as Selenium has them. @type {Record<string, string>} */
const SELENIUM_KEYS = { Tab: Key.TAB, Enter: Key.ENTER, Space: Key.SPACE, Escape: Key.ESCAPE,
  ArrowLeft: Key.ARROW_LEFT, ArrowRight: Key.ARROW_RIGHT, ArrowUp: Key.ARROW_UP, ArrowDown: Key.ARROW_DOWN,
  Home: Key.HOME, End: Key.END, Backspace: Key.BACK_SPACE, Delete: Key.DELETE };

/** WebKit's little browser lies outside PATH. */
function miniBrowser() {
  const files = execFileSync('sh', ['-c', 'dpkg -L libwebkit2gtk-4.1-0 libwebkit2gtk-4.0-37 2>/dev/null || true'], { encoding: 'utf8' });
  const found = files.split('\n').find((file) => file.endsWith('/MiniBrowser'));
  if (!found) throw new Error('MiniBrowser is not there. ./tests/run.sh installs it; by hand: apt-get install webkit2gtk-driver');
  return found;
}

/** @returns {Promise<Driver>} */
async function webkit() {
  const binary = miniBrowser();
  const driver_path = program('WebKitWebDriver', 'webkit2gtk-driver');
  const display = await startDisplay();
  const port = await freePort();
  const server = startGroup(driver_path, ['--host=127.0.0.1', `--port=${port}`],
    { stdio: 'ignore', env: { ...process.env, DISPLAY: display.name, GDK_BACKEND: 'x11', NO_AT_BRIDGE: '1',
      // There is no GPU to paint the page with. Without its compositor WebGL would not be seen.
      WEBKIT_SKIA_ENABLE_CPU_RENDERING: '1' } });
  async function stop() {
    await server.stop();
    await display.stop();
  }
  try {
    const url = `http://127.0.0.1:${port}`;
    for (let tries = 0; ; tries += 1) {
      if (await fetch(`${url}/status`).then((answer) => answer.ok, () => false)) break;
      if (tries > 100) throw new Error('WebKitWebDriver does not answer');
      await sleep(100);
    }
    const browser = await new Builder().usingServer(url).withCapabilities(new Capabilities({
      browserName: 'MiniBrowser',
      'webkitgtk:browserOptions': { binary, args: ['--automation'] },
    })).build();
    await browser.manage().setTimeouts({ script: PATIENCE_MS });
    await browser.manage().window().setRect({ x: 0, y: 0, width: WIDTH, height: HEIGHT });
    /** @param {string} expression */
    async function run(expression) {
      const script = `
        const done = arguments[0];
        (async () => (${expression}))().then((value) => done({ value }),
          (error) => done({ error: String(error) + '\\n' + (error && error.stack || '') }));`;
      // Once in some hours, on a busy machine, the driver loses what a script answered.
      const { value, error } = /** @type {{value?: unknown, error?: string}} */ (await browser.executeAsyncScript(script)
        .catch((lost) => (/Could not parse script result/.test(String(lost)) ? browser.executeAsyncScript(script) : Promise.reject(lost))));
      if (error !== undefined) throw new Error(error);
      return value;
    }
    return {
      complaints: async () => /** @type {string[]} */ (await run('globalThis.__heard?.splice(0) ?? []')),
      async goto(to) {
        await browser.switchTo().defaultContent();
        await browser.get(to);
      },
      run,
      click: (selector) => browser.findElement(By.css(selector)).click(),
      enter: (selector) => browser.switchTo().frame(browser.findElement(By.css(selector))),
      leave: () => browser.switchTo().defaultContent(),
      async drag(from, to) {
        const hand = browser.actions().move({ x: Math.round(from.x), y: Math.round(from.y), origin: Origin.VIEWPORT }).press();
        for (const at of way(from, to)) hand.move({ ...at, duration: 20, origin: Origin.VIEWPORT });
        await hand.release().perform();
      },
      key: (key) => browser.actions().sendKeys(SELENIUM_KEYS[key] ?? key).perform(),
      screenshot: async () => Buffer.from(await browser.takeScreenshot(), 'base64'),
      resize: (width, height) => browser.manage().window().setRect({ x: 0, y: 0, width, height }),
      async close() {
        await browser.quit().catch(() => {});
        await stop();
      },
    };
  } catch (error) {
    await stop();
    throw error;
  }
}

const START = { chromium, firefox, webkit };

/** @typedef {keyof typeof START} EngineName */

/** Which to test: all, or what the environment's ENGINES names, with commas between. */
export const ENGINES = (process.env.ENGINES ?? Object.keys(START).join(',')).split(',').map((name) => {
  if (!(name in START)) throw new Error(`ENGINES: ${name} is none of ${Object.keys(START).join(', ')}`);
  return /** @type {EngineName} */ (name);
});

/**
 * Starts an engine with one empty page.
 * @param {EngineName} name
 */
export async function startEngine(name) {
  const driver = await START[name]();

  /**
   * Runs a function in the page. It and its arguments are sent as text.
   * @template T
   * @param {(...args: any[]) => T | Promise<T>} fn @param {...unknown} args
   * @returns {Promise<T>}
   */
  async function evaluate(fn, ...args) {
    // As JSON, so that drivers do not differ in what they make of an element or of nothing.
    const json = await driver.run(`(async () => JSON.stringify(await (${fn})(...${JSON.stringify(args)})))()`);
    return /** @type {T} */ (typeof json === 'string' ? JSON.parse(json) : undefined);
  }

  /**
   * Waits until a function in the page says something true, and returns that.
   * @template T
   * @param {(...args: any[]) => T | Promise<T>} fn @param {...unknown} args
   */
  async function waitFor(fn, ...args) {
    const until = Date.now() + PATIENCE_MS;
    for (;;) {
      const value = await evaluate(fn, ...args);
      if (value) return value;
      if (Date.now() > until) throw new Error(`${name} waited in vain for ${fn} of ${JSON.stringify(args)}`);
      await sleep(30);
    }
  }

  /** @type {string[]} */
  const heard = [];
  async function listen() {
    heard.push(...(await driver.complaints()).filter((line) => !NOT_OURS.test(line)));
  }

  return {
    name,
    /** Its driver has no console: a page is heard where it was made to listen. */
    deaf: name === 'webkit',
    evaluate,
    waitFor,
    click: driver.click,
    drag: driver.drag,
    key: driver.key,
    screenshot: driver.screenshot,
    resize: driver.resize,
    pinch: driver.pinch,
    memory: driver.memory,
    close: driver.close,
    /** A fresh document, even where only the hash is another. @param {string} url */
    async open(url) {
      await listen();
      await driver.goto('about:blank');
      await driver.goto(url);
    },
    /**
     * Inside a frame of the page.
     * @param {string} selector @param {() => Promise<void>} body
     */
    async inside(selector, body) {
      await listen();
      await driver.enter(selector);
      await body();
      await listen();
      await driver.leave();
    },
    /** What the page complained of since the last call. */
    async complaints() {
      await listen();
      return heard.splice(0);
    },
  };
}

/** Notes the complaints of a page, from before the page's own first script: for an engine that is deaf. */
const LISTENER = `
globalThis.__heard = [];
for (const kind of ['error', 'warn']) {
  const write = console[kind];
  console[kind] = (...words) => { __heard.push(words.map(String).join(' ')); write.apply(console, words); };
}
addEventListener('error', (event) => __heard.push(event.message || 'not loaded: ' + (event.target.src || event.target.href)), true);
addEventListener('unhandledrejection', (event) => __heard.push('rejected: ' + event.reason));
addEventListener('securitypolicyviolation', (event) => __heard.push('policy: ' + event.violatedDirective + ' ' + event.blockedURI));
`;

/** Makes the pages of a built site listen. @param {string} folder A copy. */
export function listenIn(folder) {
  const first = join(folder, 'early.js');
  writeFileSync(first, LISTENER + readFileSync(first, 'utf8'));
}

/** The single file, listening; its policy names each script by its hash. @param {string} html */
export const listeningFile = (html) => html
  .replace('<style>', `<script>${LISTENER}</script>$&`)
  .replace("script-src ", `$&'sha256-${createHash('sha256').update(LISTENER).digest('base64')}' `);
