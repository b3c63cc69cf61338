// WebAssembly files as bytes: their sections, exports and data.

export const SECTION = { custom: 0, export: 7, data: 11 };

/** @param {number} n Of 32 bits, unsigned. */
export function leb(n) {
  const bytes = [];
  for (let left = n >>> 0; ; left >>>= 7) {
    if (left < 128) return Buffer.from([...bytes, left]);
    bytes.push((left & 127) | 128);
  }
}

/** Signed, as in a constant's expression. @param {number} n */
export function signedLeb(n) {
  const bytes = [];
  for (let left = n; ; left >>= 7) {
    const low = left & 127;
    if ((left >> 7 === 0 && !(low & 64)) || (left >> 7 === -1 && low & 64)) return Buffer.from([...bytes, low]);
    bytes.push(low | 128);
  }
}

/** A place in bytes that moves on as it is read. @param {Buffer} bytes */
export function reader(bytes) {
  let at = 0;
  const self = {
    at: () => at,
    done: () => at >= bytes.length,
    /** @param {number} n */
    take(n) {
      at += n;
      return bytes.subarray(at - n, at);
    },
    number() {
      let value = 0;
      for (let shift = 0; ; shift += 7) {
        const byte = bytes[at++];
        value |= (byte & 127) << shift;
        if (byte < 128) return value >>> 0;
      }
    },
    signed() {
      let value = 0;
      for (let shift = 0; ; shift += 7) {
        const byte = bytes[at++];
        value |= (byte & 127) << shift;
        if (byte < 128) return shift < 25 && byte & 64 ? value | (-1 << (shift + 7)) : value;
      }
    },
    text() {
      const size = self.number();
      return self.take(size).toString();
    },
  };
  return self;
}

/** @typedef {{id: number, body: Buffer}} Section */

/** @param {Buffer} bytes @returns {Section[]} */
export function sectionsOf(bytes) {
  const from = reader(bytes.subarray(8));
  const all = [];
  while (!from.done()) {
    const [id] = from.take(1);
    const size = from.number();
    all.push({ id, body: from.take(size) });
  }
  return all;
}

/** @param {Section[]} sections */
export const moduleOf = (sections) => Buffer.concat([Buffer.from('\0asm\x01\0\0\0', 'latin1'),
  ...sections.flatMap(({ id, body }) => [Buffer.from([id]), leb(body.length), body])]);

/** Without names of functions. @param {Section[]} sections */
export const nameless = (sections) => sections.filter(({ id, body }) => id !== SECTION.custom || reader(body).text() !== 'name');

/** @param {Buffer} body Of the exports. @param {(name: string) => boolean} wanted */
export function exportsOnly(body, wanted) {
  const from = reader(body);
  const rows = [];
  for (let left = from.number(); left > 0; left -= 1) {
    const start = from.at();
    const name = from.text();
    from.take(1);
    from.number();
    if (wanted(name)) rows.push(body.subarray(start, from.at()));
  }
  return Buffer.concat([leb(rows.length), ...rows]);
}

/** @typedef {{address: number, bytes: Buffer}} Segment Bytes of the file, and where they stand in memory. */

/**
 * The data of a module that stands at constant addresses of its one memory; to write into its bytes
 * is to change the section.
 * @param {Section[]} sections
 * @returns {Segment[]}
 */
export function segmentsOf(sections) {
  const data = sections.find(({ id }) => id === SECTION.data);
  if (!data) throw new Error('the module has no data');
  data.body = Buffer.from(data.body);
  const from = reader(data.body);
  const all = [];
  for (let left = from.number(); left > 0; left -= 1) {
    // Of the first memory, at a constant: 0, i32.const, the address, end.
    if (from.number() !== 0 || from.take(1)[0] !== 0x41) throw new Error('data that do not stand at an address');
    const address = from.signed();
    from.take(1);
    all.push({ address, bytes: from.take(from.number()) });
  }
  return all;
}

/** Gives a module without data these. @param {Section[]} sections @param {Segment[]} segments */
export function addData(sections, segments) {
  if (sections.some(({ id }) => id === SECTION.data)) throw new Error('the module has data already');
  const body = Buffer.concat([leb(segments.length), ...segments.flatMap(({ address, bytes }) =>
    [Buffer.from([0, 0x41]), signedLeb(address), Buffer.from([0x0b]), leb(bytes.length), bytes])]);
  // In the order that the format wants: only sections of no number may follow.
  const end = sections.findIndex(({ id }, i) => id === SECTION.custom && sections.slice(i).every((later) => later.id === SECTION.custom));
  sections.splice(end < 0 ? sections.length : end, 0, { id: SECTION.data, body });
}
