// Reads a table after RFC 4180, and takes nothing that it does not allow.

/** @param {string} text @returns {string[][]} Throws where the text is at fault. */
export function readCsv(text) {
  /** @type {string[][]} */
  const rows = [];
  let row = /** @type {string[]} */ ([]);
  let at = 0;
  while (at < text.length) {
    let value = '';
    if (text[at] === '"') {
      for (at += 1; text[at] !== '"' || text[at + 1] === '"'; at += 1) {
        if (at >= text.length) throw new Error('a quoted field without an end');
        if (text[at] === '"') at += 1;
        value += text[at];
      }
      at += 1;
    } else {
      for (; at < text.length && !/[",\r\n]/.test(text[at]); at += 1) value += text[at];
    }
    row.push(value);
    if (text[at] === ',') {
      at += 1;
      continue;
    }
    if (text.slice(at, at + 2) !== '\r\n') throw new Error(`at ${at}: neither a comma nor the end of a line`);
    at += 2;
    rows.push(row);
    row = [];
  }
  if (row.length) throw new Error('the last line has no end');
  if (rows.some(({ length }) => length !== rows[0].length)) throw new Error('lines of different lengths');
  return rows;
}
