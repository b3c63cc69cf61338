// A theme chosen by hand is set before the first paint, so that the page does not flash.
// A plain script, not a module: modules run after the page has been drawn.
try {
  const theme = localStorage.getItem('lesson.theme');
  if (theme === 'light' || theme === 'dark') document.documentElement.dataset.theme = theme;
} catch {
  // Storage is denied in some frames: the system's theme then.
}
