// Draws the icons of the installed page from assets/icons/app.svg; run it after changing that.
//   node tests/browser/icons.mjs
import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { launch } from './lesson.mjs';

const folder = fileURLToPath(new URL('../../assets/icons/', import.meta.url));

/** Round corners, but where the system cuts its own. */
export const ICONS = [
  { file: 'icon-192.png', px: 192, corner: 0.19 },
  { file: 'icon-512.png', px: 512, corner: 0.19 },
  { file: 'icon-512-maskable.png', px: 512, corner: 0 },
];

/**
 * @param {import('playwright-core').Browser} browser
 * @returns {Promise<Map<string, Buffer>>} PNG by file name.
 */
export async function drawIcons(browser) {
  const svg = await readFile(join(folder, 'app.svg'), 'utf8');
  const page = await browser.newPage();
  const made = new Map();
  for (const { file, px, corner } of ICONS) {
    await page.setViewportSize({ width: px, height: px });
    await page.setContent(`<style>body { margin: 0 } svg { display: block; width: ${px}px; border-radius: ${px * corner}px }</style>${svg}`);
    made.set(file, await page.screenshot({ omitBackground: true }));
  }
  await page.close();
  return made;
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const browser = await launch();
  for (const [file, png] of await drawIcons(browser)) await writeFile(join(folder, file), png);
  await browser.close();
}
