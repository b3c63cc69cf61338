// What the page is made of: contents.spdx.json by the rules of SPDX 2.3 (clauses in brackets), the
// notices with every licence's text, and no path of the machine that built the page in any file.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { contentsOf, createdAt } from '../../web/build-contents.mjs';
import { SITE } from './lesson.mjs';
import { unzipped } from './unzip.mjs';

/** @typedef {{license: string, exception?: string, plus?: boolean} | {conjunction: 'and' | 'or', left: any, right: any}} Expression */
/** Throws where a text is no licence expression. @type {(text: string) => Expression} */
const parse = createRequire(import.meta.url)('spdx-expression-parse');

const project = fileURLToPath(new URL('../..', import.meta.url)).replace(/\/$/, '');
const NAME = 'contents.spdx.json';
const text = readFileSync(join(SITE, NAME), 'utf8');
/** @typedef {ReturnType<typeof contentsOf>} Contents */
/** @type {Omit<Contents, 'packages'> & {packages: Record<string, any>[]}} */
const contents = JSON.parse(text);
const components = contents.packages.slice(1);
const notices = readFileSync(join(SITE, 'notices.txt'), 'utf8');

/** @param {string} folder */
const filesOf = (folder) => readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => name.replaceAll('\\', '/')).filter((name) => statSync(join(folder, name)).isFile());
/** @param {string} algorithm @param {string | Buffer} content */
const hash = (algorithm, content) => createHash(algorithm).update(content).digest('hex');
/** @param {string} licence */
const isLicence = (licence) => licence === 'NOASSERTION' || licence === 'NONE' || Boolean(parse(licence));

test('the document says which it is, who made it and when [6]', () => {
  assert.equal(contents.spdxVersion, 'SPDX-2.3');
  assert.equal(contents.dataLicense, 'CC0-1.0');
  assert.equal(contents.SPDXID, 'SPDXRef-DOCUMENT');
  assert.ok(contents.name);
  const space = new URL(contents.documentNamespace);
  assert.equal(space.hash, '', 'no part behind a #');
  assert.match(contents.documentNamespace, /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  assert.match(contents.creationInfo.created, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/);
  assert.ok(contents.creationInfo.creators.length);
  for (const creator of contents.creationInfo.creators) assert.match(creator, /^(Person|Organization|Tool): \S/);
});

test('every package has what is asked of one [7]', () => {
  for (const { name, ...one } of contents.packages) {
    assert.ok(name && one.versionInfo, name);
    assert.match(one.SPDXID, /^SPDXRef-[A-Za-z0-9.-]+$/, name);
    assert.ok(one.downloadLocation === 'NOASSERTION' || one.downloadLocation === 'NONE' || new URL(one.downloadLocation), name);
    assert.ok(isLicence(one.licenseConcluded) && isLicence(one.licenseDeclared), name);
    assert.ok(one.copyrightText, name);
    if (one.supplier) assert.match(one.supplier, /^(NOASSERTION$|(Person|Organization): \S)/, name);
    for (const sum of one.checksums ?? []) assert.match(`${sum.algorithm} ${sum.checksumValue}`, /^SHA256 [0-9a-f]{64}$/, name);
    assert.equal('packageVerificationCode' in one, one.filesAnalyzed, name);
    assert.equal('licenseInfoFromFiles' in one, one.filesAnalyzed, name);
    for (const reference of one.externalRefs ?? []) {
      assert.equal(reference.referenceCategory, 'PACKAGE-MANAGER', name);
      assert.equal(reference.referenceType, 'purl', name);
      assert.match(reference.referenceLocator, /^pkg:deb\/debian\/[a-z0-9.+-]+@[\w.~%-]+(\?arch=source)?$/, name);
    }
  }
});

test('every file of the page is listed with its checksums, and no other [8]', () => {
  assert.deepEqual(contents.files.map((file) => file.fileName).sort(), filesOf(SITE).filter((name) => name !== NAME).map((name) => `./${name}`).sort());
  for (const file of contents.files) {
    const bytes = readFileSync(join(SITE, file.fileName));
    assert.match(file.SPDXID, /^SPDXRef-[A-Za-z0-9.-]+$/);
    assert.deepEqual(file.checksums, [{ algorithm: 'SHA1', checksumValue: hash('sha1', bytes) }, { algorithm: 'SHA256', checksumValue: hash('sha256', bytes) }], file.fileName);
    assert.ok(['SOURCE', 'BINARY', 'IMAGE', 'TEXT', 'OTHER'].includes(file.fileTypes[0]), file.fileName);
    assert.ok(isLicence(file.licenseConcluded) && file.licenseInfoInFiles.every(isLicence) && file.copyrightText, file.fileName);
  }
});

test('the page comes first, with no licence named, and its verification code is that of its files [7.9]', () => {
  const [page] = contents.packages;
  assert.equal(page.licenseDeclared, 'NOASSERTION');
  assert.equal(page.licenseConcluded, 'NOASSERTION');
  assert.deepEqual(page.packageVerificationCode, {
    packageVerificationCodeValue: hash('sha1', contents.files.map((file) => file.checksums[0].checksumValue).sort().join('')),
    packageVerificationCodeExcludedFiles: [`./${NAME}`],
  });
});

test('identifiers are there once, and relations lead from and to them [11]', () => {
  const ids = [contents.SPDXID, ...contents.packages.map((one) => one.SPDXID), ...contents.files.map((file) => file.SPDXID)];
  assert.equal(new Set(ids).size, ids.length);
  for (const { spdxElementId, relationshipType, relatedSpdxElement } of contents.relationships) {
    assert.ok(ids.includes(spdxElementId) && ids.includes(relatedSpdxElement), `${spdxElementId} ${relatedSpdxElement}`);
    assert.ok(['DESCRIBES', 'CONTAINS', 'STATIC_LINK', 'GENERATED_FROM'].includes(relationshipType), relationshipType);
  }
  /** @param {string} type @param {string} to */
  const led = (type, to) => contents.relationships.filter((one) => one.relationshipType === type && one.relatedSpdxElement === to).length;
  assert.equal(led('DESCRIBES', contents.packages[0].SPDXID), 1);
  for (const file of contents.files) assert.equal(led('CONTAINS', file.SPDXID), 1, file.fileName);
  for (const one of components) assert.ok(led('STATIC_LINK', one.SPDXID) + led('GENERATED_FROM', one.SPDXID) > 0, one.name);
});

test('what web/sources.txt pins for the page is there with the checksum pinned', () => {
  const pins = readFileSync(join(project, 'web/sources.txt'), 'utf8').split('\n').filter((line) => /^[a-z]/.test(line)).map((line) => line.split(/\s+/));
  const shipped = pins.filter(([name]) => name !== 'catch2'); // of the tests
  assert.ok(shipped.length >= 3);
  for (const [name, , , , file, , sha256] of shipped) {
    assert.ok(components.some((one) => one.packageFileName === file && one.checksums[0].checksumValue === sha256), name);
  }
});

test('the same page gives the same list, and any other page another name', () => {
  const folder = mkdtempSync(join(tmpdir(), 'contents-'));
  try {
    cpSync(SITE, folder, { recursive: true });
    const first = contentsOf(folder, [], 'A page', '1');
    assert.deepEqual(contentsOf(folder, [], 'A page', '1'), first);
    writeFileSync(join(folder, 'build.js'), '//');
    assert.notEqual(contentsOf(folder, [], 'A page', '1').documentNamespace, first.documentNamespace);
    const lost = /** @type {any} */ ({ name: 'Lost', in: ['not-there.wasm'] });
    assert.throws(() => contentsOf(folder, [lost], 'A page', '1'), /Lost is in not-there\.wasm/);
  } finally {
    rmSync(folder, { recursive: true });
  }
  assert.equal(createdAt(undefined), '1980-01-01T00:00:00Z');
  assert.equal(createdAt('1700000000'), '2023-11-14T22:13:20Z');
  assert.throws(() => createdAt('yesterday'), /SOURCE_DATE_EPOCH is "yesterday"/);
});

/** Words that a licence's text has and a mere mention of it has not. @type {Record<string, RegExp>} */
const WORDS = {
  'Apache-2.0': /TERMS AND CONDITIONS FOR USE, REPRODUCTION, AND DISTRIBUTION[^]*END OF TERMS AND CONDITIONS/,
  'LLVM-exception': /As an exception,[^]*Combined Software/,
  'BSD-2-Clause': /Redistributions in binary form must reproduce[^]*POSSIBILITY OF SUCH DAMAGE/i,
  ISC: /Permission to use, copy, modify, and distribute this software for any purpose[^]*PERFORMANCE OF THIS SOFTWARE/,
  MIT: /Permission is hereby granted, free of charge[^]*WITHOUT WARRANTY OF ANY KIND[^]*DEALINGS IN THE SOFTWARE/,
  'OFL-1.1-no-RFN': /SIL OPEN FONT LICENSE Version 1\.1[^]*OTHER DEALINGS IN THE FONT SOFTWARE/,
  SunPro: /Permission to use, copy, modify, and distribute this software is freely granted/,
  Zlib: /provided 'as-is', without any express or implied[^]*may not be removed or altered/,
};

/** Whether a text has that of one licence of each choice. @param {Expression} licence @param {string} within @returns {boolean} */
function has(licence, within) {
  if ('conjunction' in licence) {
    const [left, right] = [has(licence.left, within), has(licence.right, within)];
    return licence.conjunction === 'and' ? left && right : left || right;
  }
  return [licence.license, ...(licence.exception ? [licence.exception] : [])].every((name) => WORDS[name]?.test(within.replace(/\s+/g, ' ')));
}

test('every component has its licence in full in the notices, and stands in the list to read', () => {
  const parts = notices.split(`${'='.repeat(78)}\n`);
  const read = readFileSync(join(project, 'docs/third-party.md'), 'utf8');
  for (const { name, versionInfo, copyrightText, licenseDeclared } of components) {
    const at = parts.findIndex((part) => part.startsWith(`${name}, ${versionInfo}\n`));
    assert.ok(at > 0, name);
    assert.ok(parts[at].includes(copyrightText), name);
    assert.ok(has(parse(licenseDeclared), parts[at + 1]), `${name}: no full text of ${licenseDeclared}`);
    assert.ok(read.includes(`| ${name} | ${versionInfo} | ${licenseDeclared};`), `docs/third-party.md: ${name}`);
  }
  assert.equal((parts.length - 1) / 2, components.length, 'no other notices');
  assert.ok(!has(parse('MIT'), 'Licensed under the MIT licence.'));
  assert.ok(!has(parse('MIT AND Zlib'), notices.slice(notices.indexOf('Permission is hereby granted'), notices.indexOf('stb_truetype,'))), 'both are wanted of an AND');
});

test('the notices come with the course package and the module too, and the page leads to them', () => {
  const beside = dirname(SITE);
  const of_module = readFileSync(join(beside, 'module/notices.txt'), 'utf8');
  for (const { relationshipType, spdxElementId, relatedSpdxElement } of contents.relationships) {
    const one = components.find(({ SPDXID }) => SPDXID === relatedSpdxElement);
    if (relationshipType === 'STATIC_LINK' && one) assert.equal(of_module.includes(`\n${one.name}, ${one.versionInfo}\n`), contents.relationships.some((other) => other.spdxElementId === 'SPDXRef-File-core.wasm' && other.relatedSpdxElement === relatedSpdxElement), `${spdxElementId} ${one.name}`);
  }
  assert.equal(unzipped(readFileSync(join(beside, 'lesson-scorm12.zip'))).get('notices.txt')?.toString(), notices);
  for (const name of ['index.html', 'sources.html']) assert.match(readFileSync(join(SITE, name), 'utf8'), /<a[^>]* href="notices\.txt">/, name);
  // A server that names no encoding would else have it read as another.
  assert.equal(notices[0], '\uFEFF');
});

test('no file that leaves the build names a folder of the machine', () => {
  /** @param {string} name @param {Buffer} bytes */
  const clean = (name, bytes) => {
    const all = bytes.toString('latin1').replaceAll('"/home/web_user"', ''); // Emscripten's, the same everywhere
    assert.ok(!all.includes(project), `${name} names the project's folder`);
    assert.equal(/(?:^|[^\w.$)}/])\/(?:home|root|tmp|usr|var|opt|mnt|work|build)\/[\w.-]+/.exec(all)?.[0], undefined, name);
    assert.doesNotMatch(all, /\.cache\/src|emscripten_cache/, name);
  };
  for (const name of filesOf(SITE)) clean(name, readFileSync(join(SITE, name)));
  const beside = dirname(SITE);
  clean('lesson-offline.html', readFileSync(join(beside, 'lesson-offline.html')));
  for (const name of filesOf(join(beside, 'module'))) clean(name, readFileSync(join(beside, 'module', name)));
  assert.throws(() => clean('', Buffer.from(`"${project}/core/plan.cpp"`)));
  assert.throws(() => clean('', Buffer.from('\0/usr/include/c++\0')));
});
