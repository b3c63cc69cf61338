// A theme chosen by hand is set before the first paint, so that the page does not flash.
// A plain script, not a module: modules run after the page has been drawn.
try {
  const theme = localStorage.getItem('lesson.theme');
  if (theme === 'light' || theme === 'dark') document.documentElement.dataset.theme = theme;
} catch {
  // Storage is denied in some frames: the system's theme then.
}

// Where the modules cannot be loaded at all, the page says so (embed.css): in a frame that has no
// origin of its own, for one, whose server does not let such frames have them.
addEventListener('error', (event) => {
  if (event.target instanceof HTMLScriptElement) document.documentElement.dataset.ready = 'not-started';
}, true);

// The core comes beside the scripts that ask for it, and after the style sheet, which is there when
// this runs: the first picture waits for that alone. The single file asks for nothing.
if (document.querySelector('link[rel="modulepreload"]')) {
  const link = document.createElement('link');
  Object.assign(link, { rel: 'preload', href: 'core.wasm', as: 'fetch', type: 'application/wasm', crossOrigin: '' });
  document.head.append(link);
}

// What a frame and an instructor ask of the layout, likewise: else it would jump.
{
  const said = (/** @type {string} */ key) => {
    const all = [...`${location.search}&${location.hash}`.matchAll(/[?&#]([a-z]+)=([^&#]*)/g)];
    return all.filter(([, name]) => name === key).at(-1)?.[2] ?? '';
  };
  if (said('embed') === '1') document.documentElement.dataset.embed = '';
  document.documentElement.dataset.hide = said('hide').toLowerCase().replace(/%2c|,/g, ' ');
}
