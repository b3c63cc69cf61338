// Writes a zip file: stored, not squeezed, names sorted, the same time on every file. So the
// same files give the same bytes in any browser and in Node.

/** 1 January 1980, 0:00: the first that the format can say. */
const DATE = 0x21;
/** UTF-8 names. */
const FLAGS = 0x0800;
const VERSION = 20;

const CRC = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

/** The CRC-32 of zip and PNG (ISO 3309). @param {Uint8Array} bytes */
export function crc32(bytes) {
  let c = 0xffffffff;
  for (const byte of bytes) c = CRC[(c ^ byte) & 0xff] ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

/** Little-endian numbers, each with its size in bytes. @param {[value: number, size: 2 | 4][]} fields */
function packed(fields) {
  const bytes = new Uint8Array(fields.reduce((sum, [, size]) => sum + size, 0));
  const view = new DataView(bytes.buffer);
  let at = 0;
  for (const [value, size] of fields) {
    if (size === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += size;
  }
  return bytes;
}

/**
 * @param {Map<string, Uint8Array>} files By name, with / between folders. Names are put in order.
 * @returns {Uint8Array<ArrayBuffer>}
 */
export function zipOf(files) {
  /** @type {Uint8Array[]} */
  const parts = [];
  /** @type {Uint8Array[]} */
  const directory = [];
  let at = 0;
  for (const name of [...files.keys()].sort()) {
    const bytes = /** @type {Uint8Array} */ (files.get(name));
    const label = new TextEncoder().encode(name);
    /** @type {[number, 2 | 4][]} */
    const common = [[VERSION, 2], [FLAGS, 2], [0, 2], [0, 2], [DATE, 2], [crc32(bytes), 4], [bytes.length, 4],
      [bytes.length, 4], [label.length, 2], [0, 2]];
    const head = packed([[0x04034b50, 4], ...common]);
    directory.push(packed([[0x02014b50, 4], [VERSION, 2], ...common, [0, 2], [0, 2], [0, 2], [0, 4], [at, 4]]), label);
    parts.push(head, label, bytes);
    at += head.length + label.length + bytes.length;
  }
  const size = directory.reduce((sum, part) => sum + part.length, 0);
  const end = packed([[0x06054b50, 4], [0, 2], [0, 2], [files.size, 2], [files.size, 2], [size, 4], [at, 4], [0, 2]]);
  const all = new Uint8Array(at + size + end.length);
  let to = 0;
  for (const part of [...parts, ...directory, end]) {
    all.set(part, to);
    to += part.length;
  }
  return all;
}
