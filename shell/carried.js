// What the single file carries of the files that the served page fetches: build/lesson-offline.html
// is opened from disk, where nothing can be fetched.

/**
 * The bytes of a file that this page carries in itself; undefined on the served page.
 * @param {string} name
 */
export function carried(name) {
  const text = document.getElementById(`carried-${name}`)?.textContent;
  return text ? Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0)) : undefined;
}
