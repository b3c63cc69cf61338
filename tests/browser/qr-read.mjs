// Reads a QR code back from its modules, after ISO/IEC 18004: versions 1 to 10 at level M, byte
// mode. Nothing of it is shared with what made the code; errors are found, not corrected.
import assert from 'node:assert/strict';

/** Rows of modules, dark true. @typedef {boolean[][]} Modules */

/** At level M: error-correction bytes of a block, and the data bytes of each block. */
const BLOCKS = /** @type {Record<number, [check: number, blocks: number[]]>} */ ({
  1: [10, [16]], 2: [16, [28]], 3: [26, [44]], 4: [18, [32, 32]], 5: [24, [43, 43]], 6: [16, [27, 27, 27, 27]],
  7: [18, [31, 31, 31, 31]], 8: [22, [38, 38, 39, 39]], 9: [22, [36, 36, 36, 37, 37]], 10: [26, [43, 43, 43, 43, 44]],
});
const ALIGNED = /** @type {Record<number, number[]>} */ ({ 1: [], 2: [6, 18], 3: [6, 22], 4: [6, 26], 5: [6, 30], 6: [6, 34],
  7: [6, 22, 38], 8: [6, 24, 42], 9: [6, 26, 46], 10: [6, 28, 50] });

/** @type {((row: number, column: number) => boolean)[]} */
const MASKS = [(r, c) => (r + c) % 2 === 0, (r) => r % 2 === 0, (r, c) => c % 3 === 0, (r, c) => (r + c) % 3 === 0,
  (r, c) => (Math.floor(r / 2) + Math.floor(c / 3)) % 2 === 0, (r, c) => ((r * c) % 2) + ((r * c) % 3) === 0,
  (r, c) => (((r * c) % 2) + ((r * c) % 3)) % 2 === 0, (r, c) => (((r + c) % 2) + ((r * c) % 3)) % 2 === 0];

/** Finder at a corner: dark frame, light frame, dark heart. @param {Modules} m @param {number} top @param {number} left */
function isFinder(m, top, left) {
  for (let r = 0; r < 7; r += 1) {
    for (let c = 0; c < 7; c += 1) {
      const ring = Math.max(Math.abs(r - 3), Math.abs(c - 3));
      if (m[top + r][left + c] !== (ring !== 2)) return false;
    }
  }
  return true;
}

/** Whether a module is part of the frame and not of the data. @param {number} size @param {number} version */
function frame(size, version) {
  const centres = ALIGNED[version];
  const last = size - 7;
  /** @param {number} r @param {number} c */
  return (r, c) => {
    if (r === 6 || c === 6) return true;
    if ((r < 9 && (c < 9 || c >= size - 8)) || (r >= size - 8 && c < 9)) return true;
    if (version >= 7 && ((r < 6 && c >= size - 11) || (c < 6 && r >= size - 11))) return true;
    return centres.some((y) => centres.some((x) => Math.abs(y - r) <= 2 && Math.abs(x - c) <= 2
      && !((y === 6 && (x === 6 || x === last)) || (x === 6 && y === last))));
  };
}

/** Whether data and check bytes belong together: every syndrome is zero, over GF(256) of 0x11d. @param {number[]} block @param {number} check */
function isWhole(block, check) {
  let root = 1;
  for (let k = 0; k < check; k += 1) {
    let sum = 0;
    for (const byte of block) sum = times(sum, root) ^ byte;
    if (sum !== 0) return false;
    root = times(root, 2);
  }
  return true;
}

/** @param {number} a @param {number} b */
function times(a, b) {
  let product = 0;
  for (let bit = 7; bit >= 0; bit -= 1) {
    product = (product << 1) ^ (product & 128 ? 0x11d : 0);
    if ((b >> bit) & 1) product ^= a;
  }
  return product;
}

/** @param {Modules} m @returns {{version: number, text: string}} */
export function readQr(m) {
  const size = m.length;
  const version = (size - 17) / 4;
  assert.ok(BLOCKS[version], `${size} modules`);
  for (const [top, left] of [[0, 0], [0, size - 7], [size - 7, 0]]) assert.ok(isFinder(m, top, left), `no finder at ${top}, ${left}`);
  const [dark] = [m[size - 8][8]];
  assert.ok(dark, 'the module that is always dark');

  // Five bits of format, the topmost first, along the eighth row: level, then mask.
  const format = [0, 1, 2, 3, 4].reduce((bits, c) => bits * 2 + Number(m[8][c]), 0) ^ 0b10101;
  assert.equal(format >> 3, 0, 'level M');
  const mask = MASKS[format & 7];

  const isFrame = frame(size, version);
  /** @type {number[]} */
  const bits = [];
  let up = true;
  for (let right = size - 1; right > 0; right -= 2) {
    if (right === 6) right -= 1;
    for (let k = 0; k < size; k += 1) {
      const r = up ? size - 1 - k : k;
      for (const c of [right, right - 1]) if (!isFrame(r, c)) bits.push(Number(m[r][c] !== mask(r, c)));
    }
    up = !up;
  }
  const bytes = Array.from({ length: bits.length >> 3 }, (_, k) => bits.slice(8 * k, 8 * k + 8).reduce((byte, bit) => byte * 2 + bit, 0));

  const [check, lengths] = BLOCKS[version];
  assert.equal(bytes.length, lengths.reduce((sum, n) => sum + n + check, 0));
  /** @type {number[][]} */
  const blocks = lengths.map(() => []);
  let at = 0;
  for (let k = 0; k < Math.max(...lengths); k += 1) for (const [b, n] of lengths.entries()) if (k < n) blocks[b].push(bytes[at++]);
  const data = blocks.flat();
  for (let k = 0; k < check; k += 1) for (const block of blocks) block.push(bytes[at++]);
  for (const block of blocks) assert.ok(isWhole(block, check), 'a block is damaged');

  let read = 0;
  /** @param {number} n */
  const next = (n) => {
    let value = 0;
    for (; n > 0; n -= 1, read += 1) value = value * 2 + ((data[read >> 3] >> (7 - (read & 7))) & 1);
    return value;
  };
  assert.equal(next(4), 4, 'byte mode');
  const length = next(version < 10 ? 8 : 16);
  return { version, text: Array.from({ length }, () => String.fromCharCode(next(8))).join('') };
}
