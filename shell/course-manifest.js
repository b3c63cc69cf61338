// The manifest of a course package, SCORM 1.2: one lesson in one file list. Text only; it is
// made in the page and by the build alike.

import { escapeHtml } from './markup.js';
import { crc32 } from './zip.js';

/** @typedef {import('./course-rules.js').Goal} Goal */

/**
 * @typedef {object} Package What an instructor chooses.
 * @property {string} title
 * @property {Goal} goal
 * @property {string} [set] Question set, of practice and check.
 * @property {string} [code] Class code; without one every student has another.
 * @property {number | null} [mastery] Pass mark of a check, 0 to 100; null: none.
 */

/** Text in XML; what XML cannot hold goes. @param {string} text */
const xml = (text) => escapeHtml(text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, ''));

/**
 * What the page is opened with: where it begins, which its address goes on from; and what the
 * course asks for, which stays however often the page is loaded again.
 * @param {Package} wanted
 */
export function parametersOf({ goal, set, code }) {
  const which = goal === 'lesson' ? [] : [['set', set], ['code', code]].filter(([, value]) => value);
  const pairs = [['lms', goal], ...which.map(([key, value]) => [`lms-${key}`, value]),
    ['mode', goal === 'lesson' ? 'lesson' : 'practice'], ...(goal === 'check' ? [['check', '1']] : []), ...which];
  return `?${pairs.map(([key, value]) => `${key}=${encodeURIComponent(String(value))}`).join('&')}`;
}

/** The pass mark as the course is told it; null: none. @param {Package} wanted */
const markOf = ({ goal, mastery }) => (goal === 'check' && typeof mastery === 'number' && Number.isFinite(mastery)
  ? Math.round(Math.min(100, Math.max(0, mastery))) : null);

/**
 * An XML name, the same for the same choices: other packages have another, so that a platform
 * does not take two for one. The title may change.
 * @param {Package} wanted
 */
function identifierOf(wanted) {
  const { goal, set, code } = wanted;
  const choices = goal === 'lesson' ? [goal] : [goal, set, code, markOf(wanted)];
  const sum = crc32(new TextEncoder().encode(choices.join('\n')));
  return `holding-entries-${sum.toString(16).padStart(8, '0')}`;
}

/**
 * @param {Package} wanted
 * @param {string[]} files All of the package but the manifest.
 */
export function manifestOf(wanted, files) {
  const { title } = wanted;
  const mark = markOf(wanted);
  const score = mark === null ? '' : `<adlcp:masteryscore>${mark}</adlcp:masteryscore>`;
  const rows = [...files].sort().map((name) => `   <file href="${xml(name)}"/>`).join('\n');
  return `<?xml version="1.0" encoding="UTF-8"?>
<manifest identifier="${identifierOf(wanted)}" version="1.0"
 xmlns="http://www.imsproject.org/xsd/imscp_rootv1p1p2"
 xmlns:adlcp="http://www.adlnet.org/xsd/adlcp_rootv1p2"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"
 xsi:schemaLocation="http://www.imsproject.org/xsd/imscp_rootv1p1p2 imscp_rootv1p1p2.xsd http://www.adlnet.org/xsd/adlcp_rootv1p2 adlcp_rootv1p2.xsd">
 <metadata><schema>ADL SCORM</schema><schemaversion>1.2</schemaversion></metadata>
 <organizations default="lesson">
  <organization identifier="lesson">
   <title>${xml(title)}</title>
   <item identifier="item-1" identifierref="page" isvisible="true" parameters="${xml(parametersOf(wanted))}">
    <title>${xml(title)}</title>${score}
   </item>
  </organization>
 </organizations>
 <resources>
  <resource identifier="page" type="webcontent" adlcp:scormtype="sco" href="index.html">
${rows}
  </resource>
 </resources>
</manifest>
`;
}
