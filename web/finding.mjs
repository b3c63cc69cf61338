// What the study of the rules (core/rule_study.h) comes to, in words: docs/finding.md, and the
// finding on the page's study of speeds and altitudes. Every number is the core's.

/** @typedef {import('./catalogue.mjs').Say} Say */
/** @typedef {import('./study.d.mts').RuleStudy} RuleStudy */
/** @typedef {import('./study.d.mts').RuleScore} RuleScore */

/** In the order of the core's rows. */
const BOOK = ['still-air', 'drift-once', 'track-30', 'drift-triple'];
const COLUMNS = ['rule', 'time', 'mean', 'ninety_five', 'quarter', 'half', 'inbound'];

/** @param {number} value */
const miles = (value) => value.toFixed(2);
/** @param {number} share */
const percent = (share) => `${Math.round(100 * share)} %`;
/** @param {number} seconds */
const whole = (seconds) => `${Math.round(seconds)}`;

/** A rule that has no name of its own. @param {RuleScore} score @param {Say} say */
function simpleName({ lean_deg, times, of }, say) {
  const lean = `${lean_deg}`;
  if (times === 0) return say('page.finding.plain', { lean });
  return say('page.finding.corrected', { lean, times: say(`page.finding.times.${Math.abs(times)}`),
    of: say(`page.finding.of.${of}`), way: say(`page.finding.way.${times > 0 ? 'as' : 'other'}`) });
}

/** @param {RuleScore[]} scores */
const least = (scores) => scores.reduce((best, score) => (score.mean_nm < best.mean_nm ? score : best));
/** @param {RuleScore[]} scores */
const greatest = (scores) => scores.reduce((worst, score) => (score.mean_nm > worst.mean_nm ? score : worst));

/**
 * @param {RuleStudy} study @param {Say} say
 * @returns {{title: string, scope: string, sentences: string[], columns: string[], book: string[][], simple: string[][], simple_title: string, caution: string}}
 */
export function findingOf(study, say) {
  /** @param {number} i */
  const bookName = (i) => say(`page.field.rule.${BOOK[i % BOOK.length]}`);
  /** @param {RuleScore} score @param {string} name */
  const row = (score, name) => [name, say(`page.finding.time.${score.timing}`), `${miles(score.mean_nm)} NM`,
    `${miles(score.ninety_five_nm)} NM`, percent(score.quarter_share), percent(score.half_share), `${whole(score.inbound_off_s)} s`];
  const best = least(study.book);
  const worst = greatest(study.book);
  const better = study.simple[study.better];
  /** @param {string} timing */
  const inbound = (timing) => {
    const all = study.book.filter((score) => score.timing === timing).map((score) => score.inbound_off_s);
    return whole(all.reduce((sum, value) => sum + value, 0) / all.length);
  };
  return {
    title: say('page.finding.title'),
    scope: say('page.finding.scope', { count: `${Math.max(...study.book.map(({ flown }) => flown))}`, step: `${360 / study.directions}`,
      most: `${study.most_kt}`, speeds: study.tas_kt.join(', ') }),
    sentences: [
      say('page.finding.book', { least: miles(best.mean_nm), best: bookName(study.book.indexOf(best)),
        most: miles(worst.mean_nm), worst: bookName(study.book.indexOf(worst)) }),
      better
        ? say('page.finding.better', { rule: simpleName(better, say), mean: miles(better.mean_nm), share: percent(better.quarter_share),
          book_mean: miles(best.mean_nm), book_share: percent(best.quarter_share) })
        : say('page.finding.none'),
      say('page.finding.inbound', { fixed: inbound('fixed'), groundspeed: inbound('groundspeed') }),
    ],
    columns: COLUMNS.map((name) => say(`page.finding.col.${name}`)),
    book: study.book.map((score, i) => row(score, bookName(i))),
    simple_title: say('page.finding.simple'),
    simple: study.simple.map((score) => row(score, simpleName(score, say))),
    caution: say('page.finding.caution'),
  };
}

/** @param {RuleStudy} study @param {Say} say */
export function findingMarkdown(study, say) {
  const finding = findingOf(study, say);
  /** @param {string[][]} rows */
  const table = (rows) => [finding.columns, finding.columns.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
  return `# ${finding.title}

The build writes this file from what the core computes (\`core/rule_study.h\`, web/finding.mjs); [theory.md](theory.md) "How far off the rules are" says how.

${finding.sentences.join('\n\n')}

${finding.scope}

${table(finding.book)}

## ${finding.simple_title}

${table(finding.simple)}

${finding.caution}
`;
}
