// Fills lesson.html at build time: the whole lesson to read, with a picture of every scene before
// and after its flight. The page needs no script. Not part of the site: the build imports it.
import { writer } from './lesson-markup.js';
import { reportsOf, rightAnswer } from './lesson-steps.js';
import { el, escapeHtml, toHtml } from './markup.js';

/** @typedef {import('./lesson-steps.js').Lesson} Lesson */
/** @typedef {import('./lesson-steps.js').Step} Step */
/** @typedef {import('./types').Core} Core */
/** @typedef {import('./types').Session} Session */
/** @typedef {import('./outcome-markup.js').Say} Say */

/** CSS pixels: labels are of this scale's size, and a narrow page shows them smaller. */
const PICTURE = { width: 520, height: 370 };
/** What is moved about in the live picture, or shows another plan. */
const OFF = ['no_correction', 'rule', 'exact', 'own', 'air_path', 'streaks'];

/** The picture as it stands, named by the core's own summary. @param {Session} session @param {(summary: string) => string} name */
const picture = (session, name) => `<figure class="picture lesson-picture">${session.svg()
  .replace(/<title>[^<]*<\/title>\s*/, '')
  .replace(/^[^<]*<svg ([^>]*?)>/, (_, attrs) => `<svg ${attrs.replace(/ (width|height)="[^"]*"/g, '')} aria-label="${escapeHtml(name(session.report().summary))}">`)}</figure>`;

/**
 * Before and after the flight.
 * @param {Step} step @param {Core} core @param {Say} say
 */
function pictures(step, core, say) {
  const session = core.session(step.scene);
  session.beside('', '');
  for (const name of OFF) session.layer(name, false);
  session.showHandles(false);
  session.showFlight(false);
  session.resize(PICTURE.width, PICTURE.height);
  session.fit();
  session.seek(0);
  const before = picture(session, (summary) => say('page.reading.before', { summary }));
  session.showFlight(true);
  for (const name of step.layers ?? []) session.layer(name, true);
  if (step.beside) session.beside(step.scenes?.[step.beside.scene] ?? '', step.beside.label);
  session.fit();
  session.seek(session.live().end_s);
  const after = picture(session, (summary) => say('page.reading.after', { summary }));
  for (const name of step.layers ?? []) session.layer(name, false);
  return { before, after };
}

/** @param {Step} step @param {number} i @param {Core} core @param {Say} say */
function article(step, i, core, say) {
  const reports = reportsOf(step, core.evaluate);
  const write = writer(reports, say);
  const { predict } = step;
  const options = (predict.options ?? []).map(({ text }) => write.filled(text));
  const { before, after } = pictures(step, core, say);
  const answer = rightAnswer(predict, reports, say);
  return `<article class="lesson-article" id="step-${step.id}" aria-labelledby="h-${step.id}">
<h2 class="lesson-title" id="h-${step.id}"><span class="lesson-number">${i + 1}</span> ${escapeHtml(step.title)}</h2>
<div class="lesson-words">
${write.paragraphs(step.text).map(toHtml).join('\n')}
${toHtml(el('p', { class: 'lesson-legend' }, write.filled(predict.ask)))}
${options.length ? toHtml(el('ul', { class: 'plain' }, ...options.map((text) => el('li', {}, text)))) : ''}
${toHtml(el('p', { class: 'lesson-fly' }, el('a', { href: `./#mode=lesson&step=${step.id}` }, say('page.reading.fly'))))}
</div>
${before}
<details class="lesson-answer inline-details">
${toHtml(el('summary', {}, say('page.reading.answer'), el('span', { class: 'visually-hidden' }, ` ${i + 1}`)))}
<div class="lesson-words">
${toHtml(el('p', { class: 'outcome' }, say(`page.lesson.${options.length ? 'choice' : 'number'}.shown`, { answer })))}
${toHtml(el('h3', {}, say('page.lesson.observe')))}
${toHtml(el('ul', { class: 'lesson-observe' }, ...write.items(step.observe)))}
${toHtml(el('h3', {}, say('page.lesson.why')))}
${write.paragraphs(step.why).map(toHtml).join('\n')}
</div>
${after}
</details>
</article>`;
}

/**
 * @param {string} template @param {Lesson} lesson @param {Core} core @param {Say} say
 * @returns {string} The page. Throws on a missing word or a placeholder it does not know.
 */
export function lessonPage(template, lesson, core, say) {
  /** @type {Record<string, () => string>} */
  const parts = {
    title: () => escapeHtml(lesson.title),
    about: () => escapeHtml(lesson.about),
    contents: () => lesson.steps.map(({ id, title }) => toHtml(el('li', {}, el('a', { href: `#step-${id}` }, title)))).join(''),
    steps: () => lesson.steps.map((step, i) => article(step, i, core, say)).join('\n'),
  };
  const html = template
    .replace(/\{\{word:([\w.-]+)\}\}/g, (_, key) => escapeHtml(say(key)))
    .replace(/<!-- lesson:(\w+) -->/g, (whole, name) => parts[name]?.() ?? whole);
  const left = /\{\{.*?\}\}|<!--.*?-->/.exec(html);
  if (left) throw new Error(`placeholder left over: ${left[0]}`);
  return html;
}
