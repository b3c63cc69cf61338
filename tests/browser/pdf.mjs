// Reads back the words of a PDF that Chromium printed, and the sizes of its pages: enough for
// tests of what is on paper. Knows only what Chromium's writer makes.
import { inflateSync } from 'node:zlib';

/** @typedef {{width_pt: number, height_pt: number, text: string}} PdfPage */

/** Objects by number: the dictionary's text and the stream's bytes. @param {Buffer} pdf */
function objectsOf(pdf) {
  const raw = pdf.toString('latin1');
  /** @type {Map<number, {head: string, stream: string}>} */
  const objects = new Map();
  for (const found of raw.matchAll(/(?:^|[\r\n])(\d+) 0 obj\s/g)) {
    const from = (found.index ?? 0) + found[0].length;
    const end = raw.indexOf('endobj', from);
    const body = raw.slice(from, end < 0 ? undefined : end);
    const at = body.search(/stream\r?\n/);
    if (at < 0) {
      objects.set(Number(found[1]), { head: body, stream: '' });
      continue;
    }
    const head = body.slice(0, at);
    const start = from + at + (body.slice(at).match(/^stream\r?\n/)?.[0].length ?? 0);
    const length = Number(head.match(/\/Length (\d+)/)?.[1] ?? 0);
    const bytes = pdf.subarray(start, start + length);
    const stream = /FlateDecode/.test(head) && !/\/Subtype\s*\/Image/.test(head) ? inflateSync(bytes) : bytes;
    objects.set(Number(found[1]), { head, stream: stream.toString('latin1') });
  }
  return objects;
}

/** @param {string} hex UTF-16. */
const unicode = (hex) => (hex.match(/.{4}/g) ?? []).map((unit) => String.fromCharCode(parseInt(unit, 16))).join('');

/** Glyph numbers to text. @param {string} cmap */
function mapOf(cmap) {
  /** @type {Map<number, string>} */
  const map = new Map();
  for (const [, block] of cmap.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, from, to] of block.matchAll(/<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>/g)) map.set(parseInt(from, 16), unicode(to));
  }
  for (const [, block] of cmap.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from, to, first] of block.matchAll(/<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>/g)) {
      for (let k = parseInt(from, 16); k <= parseInt(to, 16); k += 1) {
        map.set(k, unicode((parseInt(first, 16) + k - parseInt(from, 16)).toString(16).padStart(4, '0')));
      }
    }
  }
  return map;
}

/** Bytes of a shown string, "<0012>" or "(..)". @param {string} shown */
function bytesOf(shown) {
  if (shown.startsWith('<')) return (shown.slice(1, -1).match(/../g) ?? []).map((two) => parseInt(two, 16));
  return [...shown.slice(1, -1).replace(/\\([0-7]{3}|[\s\S])/g, (_, c) => (c.length === 3 ? String.fromCharCode(parseInt(c, 8))
    : /** @type {Record<string, string>} */ ({ n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' })[c] ?? c))].map((c) => c.charCodeAt(0));
}

/** @param {Buffer} pdf @returns {PdfPage[]} */
export function pagesOf(pdf) {
  const objects = objectsOf(pdf);
  const at = (/** @type {string | undefined} */ n) => objects.get(Number(n)) ?? { head: '', stream: '' };
  /** @type {Map<string, {map: Map<number, string>, wide: boolean}>} */
  const fonts = new Map();
  const font = (/** @type {string} */ n) => {
    const known = fonts.get(n);
    if (known) return known;
    const { head } = at(n);
    const made = { map: mapOf(at(head.match(/\/ToUnicode (\d+) 0 R/)?.[1]).stream), wide: /Type0/.test(head) };
    fonts.set(n, made);
    return made;
  };
  const tree = [...objects.values()].filter(({ head }) => /\/Type\s*\/Page\b/.test(head));
  return tree.map(({ head }) => {
    const [, , , width, height] = head.match(/\/MediaBox\s*\[\s*([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+)/) ?? [];
    const named = head.match(/\/Font\s*<<([\s\S]*?)>>/)?.[1] ?? '';
    const names = new Map([...named.matchAll(/\/(\S+) (\d+) 0 R/g)].map(([, name, n]) => [name, n]));
    const content = at(head.match(/\/Contents (\d+) 0 R/)?.[1]).stream;
    let now = { map: /** @type {Map<number, string>} */ (new Map()), wide: false };
    let text = '';
    for (const [token, name, shown] of content.matchAll(/\/(\S+) [\d.]+ Tf|(<[0-9A-Fa-f]*>|\((?:\\[\s\S]|[^\\)])*\))|\bET\b/g)) {
      if (name) now = font(names.get(name) ?? '');
      else if (shown) {
        const bytes = bytesOf(shown);
        for (let k = 0; k < bytes.length; k += now.wide ? 2 : 1) {
          text += now.map.get(now.wide ? bytes[k] * 256 + bytes[k + 1] : bytes[k]) ?? '';
        }
      } else if (token === 'ET') text += ' ';
    }
    return { width_pt: Number(width), height_pt: Number(height), text: text.replace(/\s+/g, ' ') };
  });
}

/** To compare: without spaces, which a PDF has few of, and without joined letters. @param {string} text */
export const squeezed = (text) => text.normalize('NFKC').replace(/\s+/g, '');
