// Makes the course package of an assembled page: build/lesson-scorm12.zip, by the page's own
// maker (shell/course-package.js).
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
  const maker = await load('course-package.js');
  return maker.packageOf({ title, goal: 'check', set: 'mixed', mastery: 80 },
    new Map(names.map((name) => [name, readFileSync(join(site, name))])));
}
