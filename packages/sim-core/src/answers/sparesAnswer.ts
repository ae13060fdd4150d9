import type { Estimate } from '../statistics/index.js';
import type { SpareRival, Spares, SpareSet } from '../studies/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { listed, plainAmount } from './howManySentence.js';
import { alikeNotes } from './alikeWords.js';
import { capital, measureWords } from './measureWords.js';
import { otherMeasures } from './otherMeasures.js';
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
    tables:
      sets.length === 0
        ? []
        : [
            gainsTable(found),
            ...otherMeasures(
              'spares',
              sets.slice(0, MOST).map((set) => ({ name: called(set.spares), measures: set.measures })),
              found.on,
            ),
          ],
    sure: sure(found),
    next: next(found),
    details: { ...found },
  };
}

function verdictOf(found: Spares): string {
  const { sets, named, unnamed, bring } = found;
  if (named.length + unnamed.length === 0) return 'no spares in the file';
  if (sets.length === 0) return 'no pull rule names a spare';
  if (bring === null || (bring.length > 0 && !needed(found))) return 'undecided';
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
        : (best.gain.mean ?? 0) <= 0
          ? ` No choice looked better than none: ${words.title} ${words.estimate(noneOf(sets).estimate)} with none (${shows}).`
          : ` Most was gained with ${called(best.spares)}: ${gainPhrase(on, best.gain, shows)}.`;
    const open = failed === null || failed.measure === on ? '' : ` in ${measureWords(failed.measure).title}`;
    return `Undecided which spares to bring.${lead} That another choice is better${open} by more than what matters cannot be ruled out; ${matters}.`;
  }
  const gained = sets.find(({ spares }) => same(spares, bring));
  const most = rival?.gain.high ?? 0;
  const against =
    rival === null
      ? ''
      : most <= 0
        ? 'no other choice is better'
        : `any other choice is at most ${words.value(most, rival.gain)} better`;
  const because = against === '' ? matters : `${against}, and ${matters}`;
  if (bring.length === 0)
    return `Bring no spare: ${words.title} ${gained === undefined ? '' : words.estimate(gained.estimate)} with none (${shows}); with spares there is no difference that matters: ${because}.`;
  const less = failed === null ? '' : ` ${notEnough(found, failed)}`;
  const other = otherMeasure(found);
  const gain = gained === undefined ? '' : gainPhrase(on, gained.gain, shows);
  const lead = other === null ? gain : `${gainPhrase(other.measure, other.gain, shows)}; ${gain}`;
  const more =
    rival === null
      ? ''
      : ` ${named.length > bring.length ? 'One more brings' : 'Others bring'} no difference that matters: ${because}.`;
  return needed(found)
    ? `Bring ${called(bring)}: ${lead}.${more}${less}`
    : `Undecided: ${called(bring)} will surely do, but whether none would do as well is not settled. ${capital(lead)}.${more}${less}`;
}

/** No spare at all. */
function noneOf(sets: readonly SpareSet[]): SpareSet {
  return sets.find(({ spares }) => spares.length === 0) as SpareSet;
}

/** The set that is brought, by the measure that tells it from the one that is not surely enough. */
function otherMeasure({ sets, bring, failed, on }: Spares): SpareRival | null {
  if (bring === null || failed === null || failed.measure === on) return null;
  const gain = sets
    .find(({ spares }) => same(spares, bring))
    ?.gains.find(({ measure }) => measure === failed.measure)?.gain;
  return gain === undefined ? null : { spares: bring, measure: failed.measure, gain };
}

/** Whether what is brought is for sure better than none, by the measure asked about or by the one that decides. */
function needed(found: Spares): boolean {
  const { sets, bring } = found;
  if (bring === null) return false;
  const gain = otherMeasure(found)?.gain ?? sets.find(({ spares }) => same(spares, bring))?.gain;
  return (gain?.low ?? 0) > 0;
}

/** A gain over none in words: better, worse, or not to be told apart. */
function gainPhrase(measure: string, gain: Estimate, shows: string): string {
  const words = measureWords(measure);
  const { mean, low, high } = gain;
  if (mean === null) return `nothing to measure of ${words.title}`;
  if (mean === 0 && low === high) return `${words.title} the same as with no spare in all shows (${shows})`;
  const side = mean < 0 ? 'worse' : 'better';
  const turned =
    mean < 0
      ? { ...gain, mean: -mean, low: high === null ? null : 0 - high, high: low === null ? null : 0 - low }
      : gain;
  const sure = (turned.low ?? 0) > 0 ? '' : ', which may be luck';
  return `${words.title} ${side} by ${words.estimate(turned)} than with no spare (${shows})${sure}`;
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

function picture({ sets, on, bring, margin }: Spares): IntervalsPicture {
  const words = measureWords(on);
  const rows = sets
    .filter(({ spares }) => spares.length > 0)
    .slice(0, MOST)
    .flatMap(({ spares, gain: { mean, low, high } }: SpareSet) =>
      mean === null || low === null || high === null
        ? []
        : [
            {
              label: called(spares),
              mean,
              low,
              high,
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
    ...alikeNotes(
      sets
        .slice(0, MOST)
        .flatMap(({ estimate, gain, spares }) => (spares.length === 0 ? [estimate] : [estimate, gain])),
    ),
    'This says how the figures move with luck, not whether the file is right.',
  ];
}

function next(found: Spares): string[] {
  const { sets, named, unnamed, pulled } = found;
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
    ...(verdictOf(found) === 'undecided'
      ? [
          'Four times as many shows (--replications) make intervals half as wide; or say with --margin what does not matter to you.',
        ]
      : []),
  ];
}
