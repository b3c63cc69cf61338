// Pixels of a screenshot: just the kind of PNG that the browser writes.
import { inflateSync } from 'node:zlib';

/**
 * @typedef {object} Picture
 * @property {number} width
 * @property {number} height
 * @property {(x: number, y: number) => [number, number, number]} at Red, green, blue, 0 to 255.
 */

/** Of the three neighbours, the one nearest to where their slope leads. */
/** @param {number} left @param {number} up @param {number} corner */
function paeth(left, up, corner) {
  const p = left + up - corner;
  const [a, b, c] = [Math.abs(p - left), Math.abs(p - up), Math.abs(p - corner)];
  if (a <= b && a <= c) return left;
  return b <= c ? up : corner;
}

/** @param {Buffer} png 8 bits a channel, RGB or RGBA, not interlaced. @returns {Picture} */
export function readPng(png) {
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  const channels = { 2: 3, 6: 4 }[png[25]];
  if (png[24] !== 8 || !channels || png[28] !== 0) throw new Error('not a PNG of the expected kind');
  const parts = [];
  for (let at = 8; at < png.length;) {
    const size = png.readUInt32BE(at);
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + size));
    at += size + 12;
  }
  const raw = inflateSync(Buffer.concat(parts));
  const stride = width * channels;
  const bytes = new Uint8Array(stride * height);
  for (let y = 0; y < height; ++y) {
    const filter = raw[y * (stride + 1)];
    for (let i = 0; i < stride; ++i) {
      const left = i < channels ? 0 : bytes[y * stride + i - channels];
      const up = y === 0 ? 0 : bytes[(y - 1) * stride + i];
      const corner = i < channels || y === 0 ? 0 : bytes[(y - 1) * stride + i - channels];
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter];
      bytes[y * stride + i] = raw[y * (stride + 1) + 1 + i] + guess;
    }
  }
  return {
    width,
    height,
    at(x, y) {
      const i = y * stride + x * channels;
      return [bytes[i], bytes[i + 1], bytes[i + 2]];
    },
  };
}

/**
 * How many pixels have this colour.
 * @param {Picture} picture @param {number} rgb 0xRRGGBB @param {number} [tolerance] per channel
 */
export function countColour(picture, rgb, tolerance = 6) {
  const want = [rgb >> 16, (rgb >> 8) & 255, rgb & 255];
  let count = 0;
  for (let y = 0; y < picture.height; ++y) {
    for (let x = 0; x < picture.width; ++x) {
      if (picture.at(x, y).every((v, i) => Math.abs(v - want[i]) <= tolerance)) ++count;
    }
  }
  return count;
}

/** Pixels that differ by more than a shade. @param {Picture} a @param {Picture} b */
export function countChanged(a, b) {
  if (a.width !== b.width || a.height !== b.height) return a.width * a.height;
  let count = 0;
  for (let y = 0; y < a.height; ++y) {
    for (let x = 0; x < a.width; ++x) {
      const [p, q] = [a.at(x, y), b.at(x, y)];
      if (p.some((v, i) => Math.abs(v - q[i]) > 24)) ++count;
    }
  }
  return count;
}
