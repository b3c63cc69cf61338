// Fills study.html at build time. Not part of the site: the build imports it in Node.
import { escapeHtml } from './markup.js';

/** With the marks around it. */
const FINDING = /[ ]*<!-- finding:begin -->\n([^]*?)[ ]*<!-- finding:end -->\n/;

/**
 * @param {string} template
 * @param {string | null} finding HTML of what the numbers come to; without it its part is left out.
 * @param {import('../web/catalogue.mjs').Say} say
 * @returns {string} The page. Throws on a missing word or a placeholder it does not know.
 */
export function studyPage(template, finding, say) {
  const html = template
    .replace(FINDING, (_, section) => (finding === null ? '' : section.replace('<!-- finding -->', () => finding)))
    .replace(/\{\{word:([\w.-]+)\}\}/g, (_, key) => escapeHtml(say(key)));
  const left = /\{\{.*?\}\}|<!--.*?-->/.exec(html);
  if (left) throw new Error(`placeholder left over: ${left[0]}`);
  return html;
}
