// The list of what an assembled page is made of: contents.spdx.json, by SPDX 2.3. Every file with
// its checksums, other people's components with version, licence and origin, and which file has
// which of them. The same page gives the same bytes.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { filesOf } from './build-worker.mjs';

/** @typedef {import('./build-notices.mjs').Found} Component */

const NAME = 'contents.spdx.json';
/** Where nothing is said; of the page's own part nobody has named a licence. */
const SILENT = 'NOASSERTION';
/** @type {Record<string, string>} */
const TYPES = { '.js': 'SOURCE', '.mjs': 'SOURCE', '.css': 'SOURCE', '.wasm': 'BINARY', '.png': 'IMAGE', '.svg': 'IMAGE',
  '.html': 'TEXT', '.txt': 'TEXT', '.json': 'TEXT', '.webmanifest': 'TEXT' };

/** @param {string} algorithm @param {string | Buffer} content */
const hash = (algorithm, content) => createHash(algorithm).update(content).digest('hex');

/** An identifier of SPDX has letters, figures, dots and hyphens. @param {string} name */
const fileId = (name) => `SPDXRef-File-${name.replace(/[^A-Za-z0-9.-]/g, '-')}`;
/** @param {Component} component */
const componentId = ({ id }) => `SPDXRef-Package-${id}`;

/** A name that stands for the content alone: a UUID of version 8 (RFC 9562). @param {string} sum A SHA-256. */
const uuidOf = (sum) => `${sum.slice(0, 8)}-${sum.slice(8, 12)}-8${sum.slice(13, 16)}-${'89ab'[parseInt(sum[16], 16) % 4]}${sum.slice(17, 20)}-${sum.slice(20, 32)}`;

/**
 * When the list was made. A clock would make two builds of the same page differ, and a commit's
 * date would not be that of a page which the commit left as it was.
 * @param {string | undefined} epoch SOURCE_DATE_EPOCH, seconds since 1970.
 */
export function createdAt(epoch) {
  if (epoch !== undefined && !/^\d{1,11}$/.test(epoch)) throw new Error(`SOURCE_DATE_EPOCH is "${epoch}": whole seconds since 1970 are wanted`);
  return new Date(epoch === undefined ? Date.UTC(1980, 0, 1) : Number(epoch) * 1000).toISOString().replace(/\.\d+Z$/, 'Z');
}

/** @param {Component} component */
function packageOf(component) {
  const { origin, licence } = component;
  const kind = origin.file ? '?arch=source' : '';
  return {
    name: component.name,
    SPDXID: componentId(component),
    versionInfo: component.version,
    ...(origin.file ? { packageFileName: origin.file, checksums: [{ algorithm: 'SHA256', checksumValue: origin.sha256 }] } : {}),
    supplier: 'Organization: Debian',
    downloadLocation: SILENT,
    filesAnalyzed: false,
    sourceInfo: origin.file
      ? `Debian source package ${origin.package} ${origin.version}, suite ${origin.suite}; fetched from a mirror of the Debian archive and checked against this SHA-256.`
      : `Debian package ${origin.package} ${origin.version}.`,
    licenseConcluded: licence,
    licenseDeclared: licence,
    copyrightText: component.copyright,
    comment: `For: ${component.used}.`,
    externalRefs: [{ referenceCategory: 'PACKAGE-MANAGER', referenceType: 'purl',
      referenceLocator: `pkg:deb/debian/${origin.package}@${encodeURIComponent(origin.version)}${kind}` }],
  };
}

/**
 * @param {string} site @param {Component[]} components @param {string} title
 * @param {string} build The short name of what the site is.
 * @param {string} [epoch]
 */
export function contentsOf(site, components, title, build, epoch) {
  const names = filesOf(site).filter((name) => name !== NAME);
  for (const { name, in: files } of components) {
    for (const file of files) if (!names.includes(file)) throw new Error(`web/third-party.json says that ${name} is in ${file}, which the page does not have`);
  }
  const files = names.map((name) => {
    const bytes = readFileSync(join(site, name));
    // A file that is another's through and through; in the others ours is too.
    const whole = components.find((component) => !component.linked && component.in.includes(name) && extname(name) !== '.wasm');
    return {
      fileName: `./${name}`,
      SPDXID: fileId(name),
      fileTypes: [TYPES[extname(name)] ?? 'OTHER'],
      checksums: [{ algorithm: 'SHA1', checksumValue: hash('sha1', bytes) }, { algorithm: 'SHA256', checksumValue: hash('sha256', bytes) }],
      licenseConcluded: whole?.licence ?? SILENT,
      licenseInfoInFiles: [whole?.licence ?? SILENT],
      copyrightText: whole?.copyright ?? SILENT,
    };
  });
  if (new Set(files.map((file) => file.SPDXID)).size !== files.length) throw new Error('two files have the same identifier in the list of contents');
  const code = hash('sha1', files.map((file) => file.checksums[0].checksumValue).sort().join(''));
  const page = 'SPDXRef-Package-Page';
  const document = {
    spdxVersion: 'SPDX-2.3',
    dataLicense: 'CC0-1.0',
    SPDXID: 'SPDXRef-DOCUMENT',
    name: `${title}, build ${build}`,
    documentNamespace: '',
    comment: 'The files of the page as it is served, and the work of others that is in them. Tools that build and test the page are not in it.',
    creationInfo: {
      created: createdAt(epoch),
      creators: ['Tool: build-contents.mjs'],
      comment: 'The date is that of SOURCE_DATE_EPOCH, and where none was given the first of 1980, so that the same page gives the same list.',
    },
    packages: [{
      name: title,
      SPDXID: page,
      versionInfo: build,
      downloadLocation: SILENT,
      filesAnalyzed: true,
      packageVerificationCode: { packageVerificationCodeValue: code, packageVerificationCodeExcludedFiles: [`./${NAME}`] },
      licenseConcluded: SILENT,
      licenseInfoFromFiles: [...new Set(files.flatMap((file) => file.licenseInfoInFiles))].sort(),
      licenseDeclared: SILENT,
      licenseComments: 'No licence is named for the page\'s own part. The licences of what it has from others stand with those packages, their texts in notices.txt.',
      copyrightText: SILENT,
      primaryPackagePurpose: 'APPLICATION',
    }, ...components.map(packageOf)],
    files,
    relationships: [
      { spdxElementId: 'SPDXRef-DOCUMENT', relationshipType: 'DESCRIBES', relatedSpdxElement: page },
      ...files.map((file) => ({ spdxElementId: page, relationshipType: 'CONTAINS', relatedSpdxElement: file.SPDXID })),
      ...components.flatMap((component) => component.in.map((name) => ({
        spdxElementId: fileId(name),
        relationshipType: component.linked && extname(name) === '.wasm' ? 'STATIC_LINK' : 'GENERATED_FROM',
        relatedSpdxElement: componentId(component),
      }))),
    ],
  };
  document.documentNamespace = `urn:uuid:${uuidOf(hash('sha256', JSON.stringify(document)))}`;
  return document;
}

/** Last of all, since it lists what is there. @param {string} site @param {Component[]} components @param {string} title @param {string} build */
export function writeContents(site, components, title, build) {
  const contents = contentsOf(site, components, title, build, process.env.SOURCE_DATE_EPOCH);
  writeFileSync(join(site, NAME), `${JSON.stringify(contents, null, 1)}\n`);
}
