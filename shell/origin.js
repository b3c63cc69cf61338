// The origin of the page that has this one in a frame, as an address names it.

/**
 * The origin that a `host` key names, where it is one and nothing more; else null.
 * @param {string | null} text
 */
export function originOf(text) {
  try {
    const url = new URL(text ?? '');
    return ['https:', 'http:'].includes(url.protocol) && url.origin === text?.replace(/\/$/, '') ? url.origin : null;
  } catch {
    return null;
  }
}
