// Makes the course package of an assembled page: build/lesson-scorm12.zip. The page's own
// maker (shell/mode-teach.js) puts together the same files.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * @param {string} site The finished folder.
 * @param {string[]} names Its files.
 * @param {(name: string) => Promise<any>} load Loads a module of the page.
 * @param {string} title
 * @returns {Promise<Uint8Array>}
 */
export async function packageOf(site, names, load, title) {
  const { zipOf } = await load('zip.js');
  const { manifestOf } = await load('course-manifest.js');
  const files = new Map(names.map((name) => [name, readFileSync(join(site, name))]));
  const manifest = manifestOf({ title, goal: 'check', set: 'mixed', mastery: 80 }, names);
  files.set('imsmanifest.xml', Buffer.from(manifest));
  return zipOf(files);
}
