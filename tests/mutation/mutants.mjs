// Small mistakes in C++ text, one at a time: where one can be made, and what the text is then.
// It knows the code's own style (clang-format): a space on both sides tells an operator of two
// numbers from a sign, a pointer or a template.

/** @typedef {{line: number, from: number, to: number, by: string, kind: string}} Mutant A piece of one line (counted from 0) and what takes its place. */

/** Comments, strings and characters made blank, so that what is left stands where it stood. @param {string} text */
export function codeOf(text) {
  return text.replace(/\/\/[^\n]*|\/\*[^]*?\*\/|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])'/g, (match) => match.replace(/[^\n]/g, ' '));
}

/** @type {[kind: string, what: RegExp, by: (match: RegExpExecArray) => string[]][]} The first group is replaced. */
const RULES = [
  ['arithmetic', /(?<=[\w)\]}] )([-+*/%])(?= [\w(.!~*&+-])/g, ([, sign]) => [{ '+': '-', '-': '+', '*': '/', '/': '*', '%': '+' }[sign] ?? '']],
  ['arithmetic', /(?<=[\w)\]] )([-+*/]=)(?= )/g, ([, sign]) => [{ '+=': '-=', '-=': '+=', '*=': '/=', '/=': '*=' }[sign] ?? '']],
  ['arithmetic', /(\+\+|--)/g, ([, sign]) => [sign === '++' ? '--' : '++']],
  ['sign', /(?<=[(,=?:{] ?|return )(-)(?=[\w(])/g, () => ['']],
  ['constant', /(?<![\w.'])(\d+(?:'\d+)*)(?![\w.'])/g, ([, n]) => (n === '0' ? ['1'] : [String(Number(n.replaceAll("'", '')) + 1), String(Number(n.replaceAll("'", '')) - 1)])],
  ['constant', /(?<![\w.'])(\d+\.\d*(?:e[-+]?\d+)?|\d+e[-+]?\d+)(?![\w.'])/g, ([, n]) => (Number(n) === 0 ? ['1.0'] : [`(${n} * 1.05)`, `(-${n})`])],
  ['constant', /\b(true|false)\b/g, ([, word]) => [word === 'true' ? 'false' : 'true']],
  ['comparison', /(?<=[\w)\]] )(<=?|>=?|==|!=)(?= [\w(.!*&-])/g, ([, sign]) => ({ '<': ['<=', '>'], '<=': ['<', '>'], '>': ['>=', '<'], '>=': ['>', '<'], '==': ['!='], '!=': ['=='] }[sign] ?? [])],
  ['boolean', /(?<= |^)(&&|\|\|)(?= |$)/g, ([, sign]) => [sign === '&&' ? '||' : '&&']],
  ['boolean', /(?<=[( ,=])(!)(?=[\w(])/g, () => ['']],
  ['function', /\bstd::(min|max|sin|cos|floor|ceil)(?=\()/g, ([, name]) => [{ min: 'max', max: 'min', sin: 'cos', cos: 'sin', floor: 'ceil', ceil: 'floor' }[name] ?? '']],
  ['removed', /^\s*((?!return\b|using\b|break\b|continue\b|throw\b|delete\b|case\b|default\b|static_assert\b|namespace\b|template\b|friend\b|typedef\b)[\w:.\->[\]*()]+(?:\(.*\)| [-+*/|&^]?= .*);)$/g, () => [';']],
];

/**
 * Every mistake that can be made in a text, in its order.
 * @param {string} text
 * @returns {Mutant[]}
 */
export function mutantsOf(text) {
  /** @type {Mutant[]} */
  const found = [];
  codeOf(text).split('\n').forEach((code, line) => {
    if (/^\s*(?:#|using |namespace |template |static_assert|enum )/.test(code)) return;
    for (const [kind, what, by] of RULES) {
      for (const match of code.matchAll(what)) {
        const from = (match.index ?? 0) + match[0].indexOf(match[1]);
        for (const other of by(/** @type {RegExpExecArray} */ (match))) found.push({ line, from, to: from + match[1].length, by: other, kind });
      }
    }
  });
  return found;
}

/** @param {string} text @param {Mutant} mutant */
export function mutated(text, { line, from, to, by }) {
  const lines = text.split('\n');
  lines[line] = lines[line].slice(0, from) + by + lines[line].slice(to);
  return lines.join('\n');
}

/** Numbers from 0 to below 1 that a seed gives, the same everywhere (mulberry32). @param {number} seed */
export function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6D2B79F5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Bounds of a share of which `hits` of `n` were seen, at 95 % (Wilson). @param {number} hits @param {number} n @returns {[number, number]} */
export function wilson(hits, n) {
  if (n === 0) return [0, 1];
  const z = 1.959964;
  const p = hits / n;
  const middle = (p + z * z / (2 * n)) / (1 + z * z / n);
  const half = (z / (1 + z * z / n)) * Math.sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  return [middle - half, middle + half];
}
