// The pictures of tests/golden/everywhere.inc, as tests/same_everywhere_test.cpp makes them natively.
// The function is sent into pages as text: nothing from outside of it, but for the core there.

/**
 * @param {import('../shell/types').Core | null} core Whole; null: `ownCore` of the page.
 * @param {{link: string, layers: string}[]} rows
 * @returns {string[]} SVG
 */
export function picturesOf(core, rows) {
  const own = /** @type {import('../shell/types').Core} */ (core ?? /** @type {any} */ (globalThis).ownCore);
  const session = own.session('');
  session.resize(880, 640);
  const off_at_first = ['sectors', 'other_entry', 'area', 'limits'];
  const themes = /** @type {const} */ (['light', 'dark', 'contrast_light', 'contrast_dark']);
  return rows.map(({ link, layers }, n) => {
    session.open(link);
    for (const name of Object.keys(session.layers())) session.layer(name, layers.split(',').includes(name) === off_at_first.includes(name));
    session.fit();
    session.seek(n % 3 === 0 ? -20 : 40 * n);
    return session.svg(themes[n & 3]);
  });
}
