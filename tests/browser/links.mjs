// Links and what the page makes of them: written by hand from the design's table of keys.
import { readFileSync } from 'node:fs';

/**
 * Rows of a file that C++ includes as well.
 * @param {string} name
 * @returns {any[][]}
 */
export const rowsOf = (name) => JSON.parse(`[${readFileSync(new URL(`../golden/${name}`, import.meta.url), 'utf8')
  .replace(/^\/\/.*$/gm, '').replace(/"\n\s*"/g, '').replaceAll('{', '[').replaceAll('}', ']').replace(/,\s*$/, '')}]`);

/** All over what is drawn: the same everywhere. @type {{link: string, layers: string}[]} */
export const EVERYWHERE = rowsOf('everywhere.inc').map(([link, layers]) => ({ link, layers }));

/** As it may be written, and as the page writes it back. @type {[given: string, written: string][]} */
export const GOLDEN = [
  ['', ''],
  ['inbound=238', ''],
  ['inbound=090&turns=right', 'inbound=90&turns=right'],
  ['turns=right&inbound=90', 'inbound=90&turns=right'],
  ['wind=015/40', 'wind=15/40'],
  ['wind=0/15', 'wind=360/15'],
  ['arrive=0', 'arrive=360'],
  ['leg=90', 'leg=1:30'],
  ['leg=4nm', 'leg=4nm'],
  ['altitude=16000&ias=170', 'altitude=16000&ias=170'],
  ['tas=110', 'tas=110'],
  ['ias=90&tas=140', 'tas=140'],
  ['isa=+10', 'isa=+10'],
  ['isa=%2B10', 'isa=+10'],
  ['isa=-5.5', 'isa=-5.5'],
  ['bank=25', 'bank=25'],
  ['wind=310/22&windref=true&variation=7E', 'wind=310/22&windref=true&variation=7E'],
  ['variation=4w', 'variation=4W'],
  ['entry=parallel', 'entry=parallel'],
  ['entry=auto', ''],
  ['heading=094', 'heading=94'],
  ['rule=drift-triple&time=75', 'rule=drift-triple&time=1:15'],
  ['timing=groundspeed&timer=level', 'timing=groundspeed&timer=level'],
  ['multiple=2.50&intercept=45&laps=2', 'multiple=2.5&intercept=45&laps=2'],
  ['v=1&laps=3', 'laps=3'],
];

/**
 * Links all over the table of keys, the same in every run.
 * @param {number} count @param {number} [seed]
 */
export function manyLinks(count, seed = 1) {
  let state = seed;
  // A plain congruential generator: the same numbers in every engine.
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  /** @param {number} low @param {number} high */
  const whole = (low, high) => low + Math.floor(next() * (high - low + 1));
  /** @param {string[]} choices */
  const one = (choices) => choices[whole(0, choices.length - 1)];
  return Array.from({ length: count }, () => [
    `inbound=${whole(1, 360)}`,
    `turns=${one(['left', 'right'])}`,
    `wind=${whole(1, 360)}/${whole(0, 70)}`,
    `arrive=${whole(1, 360)}`,
    one(['ias=105', 'tas=140', 'ias=230&altitude=17000', 'tas=90.5']),
    one(['leg=1:00', 'leg=1:30', 'leg=3nm', '']),
    `rule=${one(['still-air', 'drift-once', 'track-30', 'drift-triple'])}`,
    `timing=${one(['fixed', 'groundspeed'])}`,
    `timer=${one(['fix', 'level'])}`,
    one(['', '', 'entry=offset', 'entry=parallel', 'entry=direct']),
    one(['', '', `heading=${whole(1, 360)}`, `time=${whole(0, 180)}`]),
    one(['', 'windref=true&variation=11W', 'isa=-15', 'bank=12']),
    `laps=${whole(0, 3)}`,
  ].filter(Boolean).join('&'));
}
