// Light, dark, or as the system says. Storage may be denied: then for this visit only.

const STORED_AS = 'lesson.theme';
const DARK = matchMedia('(prefers-color-scheme: dark)');
const FORCED = matchMedia('(forced-colors: active)');
const CONTRAST = matchMedia('(prefers-contrast: more)');

const isDark = () => {
  const chosen = document.documentElement.dataset.theme;
  return FORCED.matches || !chosen ? DARK.matches : chosen === 'dark';
};

/** The painter's themes by their number. */
export const THEMES = /** @type {const} */ (['light', 'dark', 'contrast_light', 'contrast_dark']);

/** Number of the painter's theme: 0 light, 1 dark, 2 and 3 the same with strong contrast. */
export const paintedTheme = () =>
  (isDark() ? 1 : 0) + (FORCED.matches || CONTRAST.matches ? 2 : 0);

/** @param {string} theme */
function store(theme) {
  try {
    if (theme === 'auto') localStorage.removeItem(STORED_AS);
    else localStorage.setItem(STORED_AS, theme);
  } catch {
    // Denied: nothing is kept.
  }
}

/** @param {() => void} onChange */
export function mountTheme(onChange) {
  const root = document.documentElement;
  const radios = /** @type {NodeListOf<HTMLInputElement>} */ (
    document.querySelectorAll('input[name="theme"]'));
  for (const radio of radios) {
    radio.checked = radio.value === (root.dataset.theme ?? 'auto');
    radio.addEventListener('change', () => {
      if (radio.value === 'auto') delete root.dataset.theme;
      else root.dataset.theme = radio.value;
      store(radio.value);
      onChange();
    });
  }
  for (const query of [DARK, FORCED, CONTRAST]) query.addEventListener('change', onChange);
}
