// Text to the clipboard, also in frames that have no permission for it.

/** @param {string} text @returns {Promise<boolean>} Whether it is there. */
export async function copyText(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copyBySelection(text);
  }
}

/** @param {string} text */
function copyBySelection(text) {
  const area = document.createElement('textarea');
  area.value = text;
  area.className = 'visually-hidden';
  const focused = document.activeElement;
  document.body.append(area);
  area.select();
  let done = false;
  try {
    done = document.execCommand('copy');
  } catch {
    done = false;
  }
  area.remove();
  if (focused instanceof HTMLElement) focused.focus({ preventScroll: true });
  return done;
}
