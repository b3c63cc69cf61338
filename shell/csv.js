// A table as text (RFC 4180), as spreadsheets take it.

/** Spreadsheets take a text without it for one of their own old character sets. */
const BYTE_ORDER_MARK = '\uFEFF';

/** @param {string | number | null} value */
function field(value) {
  const text = value === null ? '' : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The first row names the columns. @param {(string | number | null)[][]} rows */
export const csvText = (rows) => BYTE_ORDER_MARK + rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
