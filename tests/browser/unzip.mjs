// Reads a zip whose files are only stored, as the page writes them.
import assert from 'node:assert/strict';

/**
 * Its files, in the order they stand in.
 * @param {Buffer} zip
 * @param {(bytes: Uint8Array) => number} [crc32] Their checksums are looked at where this is given.
 * @returns {Map<string, any>} Buffers, by name.
 */
export function unzipped(zip, crc32) {
  const files = new Map();
  let at = 0;
  while (zip.readUInt32LE(at) === 0x04034b50) {
    const [size, name, extra] = [zip.readUInt32LE(at + 18), zip.readUInt16LE(at + 26), zip.readUInt16LE(at + 28)];
    assert.equal(zip.readUInt16LE(at + 8), 0, 'stored');
    assert.deepEqual([zip.readUInt16LE(at + 10), zip.readUInt16LE(at + 12)], [0, 0x21], 'one time for all');
    const from = at + 30 + name + extra;
    const bytes = zip.subarray(from, from + size);
    if (crc32) assert.equal(zip.readUInt32LE(at + 14), crc32(bytes));
    files.set(zip.toString('utf8', at + 30, at + 30 + name), bytes);
    at = from + size;
  }
  return files;
}
