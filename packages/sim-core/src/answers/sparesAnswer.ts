import type { SpareRival, Spares, SpareSet } from '../studies/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { SHORT } from './howManyAnswer.js';
import { listed, plainAmount } from './howManySentence.js';
import { measureWords } from './measureWords.js';
import type { IntervalsPicture } from './picture.js';

/** Lines of the table and the picture. */
const MOST = 12;

/**
 * Which spares to bring, in words, figures and a picture.
 *
 * @param name of the scenario
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * sparesAnswer('Example', await spares(study, exampleLoop, { replications: 10 })).verdict // => 'no spares in the file'
 */
export function sparesAnswer(name: string, found: Spares): AnswerParts {
  const { sets } = found;
  return {
    question: 'spares',
    title: `${name}: which spares to bring`,
    verdict: verdictOf(found),
    sentence: sentence(found),
    because: because(found),
    pictures: sets.length === 0 ? [] : [picture(found)],
    tables: sets.length === 0 ? [] : [gainsTable(found), measuresTable(found)],
    sure: sure(found),
    next: next(found),
    details: { ...found },
  };
}

function verdictOf({ sets, named, unnamed, bring }: Spares): string {
  if (named.length + unnamed.length === 0) return 'no spares in the file';
  if (sets.length === 0) return 'no pull rule names a spare';
  if (bring === null) return 'undecided';
  return bring.length === 0 ? 'none needed' : 'bring';
}

function sentence(found: Spares): string {
  const { sets, named, unnamed, bring, on, rival, failed, margin, replications } = found;
  const words = measureWords(on);
  if (named.length + unnamed.length === 0)
    return 'There are no spares in this file, so none can be compared.';
  if (sets.length === 0)
    return `No pull rule names ${listed(unnamed)}: as the file stands, bringing ${unnamed.length === 1 ? 'it' : 'them'} changes nothing.`;
  const matters = [
    `up to ${plainAmount(on, margin)} does not matter`,
    ...found.also.map(
      ({ measure, margin: amount }) =>
        `nor does up to ${plainAmount(measure, amount)} of ${measureWords(measure).title}`,
    ),
  ].join(', ');
  const shows = `${replications} shows of each`;
  if (bring === null) {
    const best = sets.find(({ judged }) => judged);
    const lead =
      best === undefined
        ? ''
        : ` Most was gained with ${called(best.spares)}: ${words.title} better by ${words.mean(best.gain)} than with none (95 % interval: ${words.interval(best.gain)}, ${shows}).`;
    return `Undecided which spares to bring.${lead} That another choice is better by more than what matters cannot be ruled out; ${matters}.`;
  }
  const gained = sets.find(({ spares }) => same(spares, bring));
  const against =
    rival === null
      ? ''
      : (rival.gain.high ?? 0) <= 0
        ? 'no other choice is better'
        : `any other choice is at most ${words.value(Math.max(0, rival.gain.high ?? 0), rival.gain)} better`;
  if (bring.length === 0)
    return `Bring no spare: ${words.title} ${gained === undefined ? '' : words.estimate(gained.estimate)} with none (${shows}); with spares there is no difference that matters: ${against}, and ${matters}.`;
  const less = failed === null ? '' : ` ${notEnough(found, failed)}`;
  return `Bring ${called(bring)}: ${words.title} better by ${gained === undefined ? '' : words.estimate(gained.gain)} than with no spare (${shows}). One more brings no difference that matters: ${against}, and ${matters}.${less}`;
}

/** Of the set that is not surely enough: whether it surely is not. */
function notEnough({ on, margin, also }: Spares, failed: SpareRival): string {
  const words = measureWords(failed.measure);
  const matters =
    failed.measure === on ? margin : also.find(({ measure }) => measure === failed.measure)?.margin;
  const better = `another choice is better by ${words.interval(failed.gain)} in ${words.title}`;
  return (failed.gain.low ?? 0) > (matters ?? 0)
    ? `With ${called(failed.spares)} it would surely matter: ${better}.`
    : `Whether ${called(failed.spares)} would do is undecided: ${better}.`;
}

function because({ pulled, unnamed, sets }: Spares): string[] {
  if (sets.length === 0) return [];
  return [
    `Pulled when they misbehave: ${listed(pulled)}.`,
    ...(unnamed.length === 0
      ? []
      : [
          `No pull rule names ${listed(unnamed)}, so ${unnamed.length === 1 ? 'it was' : 'they were'} left out.`,
        ]),
  ];
}

function called(spares: readonly string[]): string {
  return spares.length === 0 ? 'none' : listed(spares);
}

function same(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((id) => b.includes(id));
}

function gainsTable({ sets, on, replications }: Spares): AnswerTable {
  const words = measureWords(on);
  return {
    title: `With these spares at hand: ${words.title}`,
    head: ['spares', words.title, '95 % interval', 'gain over none', '95 % interval', 'shows'],
    rows: sets
      .slice(0, MOST)
      .map(({ spares, estimate, gain, judged }) => [
        called(spares),
        words.mean(estimate),
        words.interval(estimate),
        spares.length === 0 ? '' : words.mean(gain),
        spares.length === 0 ? '' : words.interval(gain),
        judged ? String(replications) : `${estimate.replications}, first look`,
      ]),
  };
}

/** Other measures, for those who count something else. */
function measuresTable({ sets, on }: Spares): AnswerTable {
  const ids = Object.keys(SHORT).filter((id) => id !== on);
  return {
    title: 'What else changes',
    head: ['spares', ...ids.map((id) => SHORT[id] ?? '')],
    rows: sets.slice(0, MOST).map(({ spares, measures }) => [
      called(spares),
      ...ids.map((id) => {
        const estimate = measures.find(({ measure }) => measure === id)?.estimate;
        return estimate === undefined ? '' : measureWords(id).mean(estimate);
      }),
    ]),
  };
}

function picture({ sets, on, bring, margin }: Spares): IntervalsPicture {
  const words = measureWords(on);
  const rows = sets
    .filter(({ spares }) => spares.length > 0)
    .slice(0, MOST)
    .flatMap(({ spares, gain: { mean, low, high } }: SpareSet) =>
      mean === null
        ? []
        : [
            {
              label: called(spares),
              mean,
              low: low ?? mean,
              high: high ?? mean,
              chosen: bring !== null && same(spares, bring),
            },
          ],
    );
  return {
    shape: 'intervals',
    id: 'gains',
    title: 'What spares bring',
    caption: `Gain in ${words.title} over no spare at all, with the 95 % interval, best first${rows[0] ? `: ${rows[0].label} leads` : ''}.`,
    axis: `gain in ${words.title}`,
    kind: words.measure.kind,
    rows,
    lines: [
      { value: 0, label: 'none' },
      ...(margin > 0 ? [{ value: margin, label: 'matters from here' }] : []),
    ],
  };
}

function sure({ sets, replications }: Spares): string[] {
  if (sets.length === 0) return ['Nothing was simulated.'];
  return [
    `Gains are paired: every choice of spares met the same ${replications} shows. They are not those by which it was found out which choices may be the best.`,
    'A choice is enough when no other of one or two spares is better by more than what matters, for sure; that one is called enough which is not happens in at most 1 of 20 such answers.',
    'This says how the figures move with luck, not whether the file is right.',
  ];
}

function next({ sets, named, unnamed, pulled, bring }: Spares): string[] {
  const rule =
    'pull: { outlasts: 5 min, spares: [NAME], swap: 90 s, mend: 1 h } under a module that often stops for long';
  if (named.length + unnamed.length === 0)
    return [
      'Describe what you could bring under spares:, with the keys of a module, such as spares: { plain-lift: { basket: 150, cycle: 0.9 s, travel: 6 s } }.',
      `Then say when it goes in: ${rule.replace('NAME', 'plain-lift')}.`,
    ];
  if (sets.length === 0)
    return [
      pulled.length === 0
        ? `Say when ${unnamed[0]} goes in: ${rule.replace('NAME', unnamed[0] ?? 'NAME')}.`
        : `Add ${unnamed[0]} to the spares of a pull rule, such as --set modules.${pulled[0]}.pull.spares=[${unnamed[0]}].`,
    ];
  return [
    ...unnamed.map(
      (id) =>
        `To count in ${id}, add it to the spares of a pull rule, such as that of ${pulled[0] ?? 'a module'}.`,
    ),
    ...(bring === null
      ? [
          'Four times as many shows (--replications) make intervals half as wide; or say with --margin what does not matter to you.',
        ]
      : []),
  ];
}
