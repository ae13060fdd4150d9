import type { HouseRule } from '../experiments/index.js';
import { type Estimate, isRare, replicationsUntilRare } from '../statistics/index.js';
import { surelyBroken, type Sweep, type SweepValue } from '../studies/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { alikeNotes } from './alikeWords.js';
import { deciding, howManySentence, isUnseen, keptBesides, listed, plainAmount } from './howManySentence.js';
import { capital, measureWords } from './measureWords.js';
import { otherMeasures } from './otherMeasures.js';
import type { RibbonPicture } from './picture.js';
import { variedWords } from './variedWords.js';

/** Measures that have a picture besides the one that decides. */
const PICTURED = ['spills_per_hour', 'throughput_bps', 'loop_time_s', 'minders_busy_share'];

/**
 * How many, or how much, of what was varied to take, in words, figures and pictures.
 *
 * @param name of the scenario
 * @param notes what to know of how it was varied
 * @param compare what compares the file with itself changed, as it can be typed, but for the changes
 * @param house rules of the house in the file: told of where the value named breaks one that was not asked about
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const grid = { values: [1, 2], step: 1, min: 1, whole: true, fixed: true };
 * const varied = { thing: { kind: 'minders' }, now: exampleLoop, today: null, at: () => exampleLoop, grid, want: 'least' };
 * const found = await sweep(study, varied, { replications: 10, on: 'stops_per_hour' });
 * howManyAnswer('Example', found, []).verdict // => 'take the last looked at'
 */
export function howManyAnswer(
  name: string,
  found: Sweep,
  notes: readonly string[],
  compare = 'npx lapwright compare FILE',
  house: readonly HouseRule[] = [],
): AnswerParts {
  const varied = variedWords(found.thing, found.want);
  return {
    question: 'how-many',
    title: `${name}: ${varied.question}`,
    verdict: verdictOf(found),
    sentence: howManySentence(found),
    because: [...because(found), ...brokenRules(found, house)],
    pictures: pictures(found),
    tables: [
      decidingTable(found),
      ...otherMeasures(
        varied.head,
        found.values.map(({ value, measures }) => ({ name: varied.cell(value), measures })),
        found.on,
      ),
    ],
    sure: [...sure(found), ...notes],
    next: next(found, compare),
    details: { ...found },
  };
}

function verdictOf({ recommended, at_the_end: atTheEnd, form, values }: Sweep): string {
  if (recommended !== null) return atTheEnd ? 'take the last looked at' : 'take';
  const judged = values.filter(({ verdict }) => verdict !== 'not judged');
  return form === 'limit' && judged.length > 0 && judged.every(({ verdict }) => verdict === 'no')
    ? 'none keeps the limit'
    : 'undecided';
}

/** What the recommended value brings and costs against what is there now. */
function because(found: Sweep): string[] {
  const { on, recommended, values, now, today } = found;
  const varied = variedWords(found.thing, found.want);
  const taken = values.find(({ value }) => value === recommended);
  const also = ['throughput_bps', ...(on === 'spills_per_hour' ? [] : ['spills_per_hour'])].filter(
    (measure) => measure !== on,
  );
  const told = (measures: SweepValue['measures'], ids: readonly string[]): string =>
    listed(
      ids.flatMap((id) => {
        const estimate = measures.find(({ measure }) => measure === id)?.estimate;
        return estimate === undefined || estimate.mean === null
          ? []
          : [`${measureWords(id).title} ${measureWords(id).estimate(estimate)}`];
      }),
    );
  const asItIs =
    recommended !== null && recommended === today
      ? []
      : [`As it is now${today === null ? '' : ` (${varied.having(today)})`}: ${told(now, [on, ...also])}.`];
  return [
    ...(taken === undefined || also.length === 0 ? [] : [`With it: ${told(taken.measures, also)}.`]),
    ...asItIs,
  ];
}

/** What is enough need not be what the house allows: a word on that, where nothing was asked about its rules. */
function brokenRules(found: Sweep, house: readonly HouseRule[]): string[] {
  const { form, recommended, values } = found;
  const taken = values.find(({ value }) => value === recommended);
  if (form === 'limit') return [];
  const breaks = ({ measures }: SweepValue, rule: HouseRule): boolean => {
    const estimate = measures.find(({ measure }) => measure === rule.measure)?.estimate;
    return estimate !== undefined && surelyBroken(rule, estimate);
  };
  const broken = house.filter((rule) => (taken ? [taken] : values).every((value) => breaks(value, rule)));
  if (broken.length === 0) return [];
  const varied = variedWords(found.thing, found.want);
  const better = values.filter((value) => !broken.some((rule) => breaks(value, rule)));
  const rules = broken.map(
    ({ measure, side, limit }) => `${measureWords(measure).title} ${side} ${plainAmount(measure, limit)}`,
  );
  const others =
    better.length === 0
      ? 'so does every other value looked at'
      : `not so, or not surely, with ${listed(better.map(({ value }) => varied.cell(value)))}`;
  return taken
    ? [`Enough is not what the house asks: it surely breaks ${listed(rules)}; ${others}.`]
    : [`Every value looked at surely breaks what the house asks: ${listed(rules)}.`];
}

const IN_WORDS: Readonly<Record<Sweep['form'], Readonly<Record<SweepValue['verdict'], string>>>> = {
  limit: {
    yes: 'kept for sure',
    no: 'surely broken',
    undecided: 'undecided',
    'more than it takes': '',
    'not judged': '',
  },
  enough: {
    yes: 'enough',
    no: 'surely worse',
    undecided: 'undecided',
    'more than it takes': 'more than it takes',
    'not judged': '',
  },
};

function decidingTable(found: Sweep): AnswerTable {
  const { on, values, form, recommended, today } = found;
  const words = measureWords(on);
  const varied = variedWords(found.thing, found.want);
  return {
    title: `${capital(words.title)} at each value`,
    head: [varied.head, words.title, '95 % interval', 'shows', 'verdict'],
    rows: values.map((one) => {
      const estimate = deciding(found, one);
      const marks = [
        ...(one.value === recommended ? ['recommended'] : []),
        ...(one.value === today ? ['as it is'] : []),
      ];
      return [
        `${varied.cell(one.value)}${marks.length === 0 ? '' : ` (${marks.join(', ')})`}`,
        words.mean(estimate),
        words.interval(estimate),
        String(one.shows),
        one.decided_by === null || one.decided_by === on
          ? IN_WORDS[form][one.verdict]
          : `${one.verdict === 'no' ? 'surely not' : 'undecided'}, by ${measureWords(one.decided_by).title}`,
      ];
    }),
  };
}

/**
 * The values of a picture: a first look between two values that were judged with more shows says nothing that those do not
 * say better.
 */
function drawn(values: readonly SweepValue[]): SweepValue[] {
  const most = Math.max(...values.map(({ shows }) => shows));
  return values.filter(
    ({ shows }, i) => shows === most || values[i - 1]?.shows !== most || values[i + 1]?.shows !== most,
  );
}

function pictures(found: Sweep): RibbonPicture[] {
  const { on, values, limit, recommended } = found;
  const varied = variedWords(found.thing, found.want);
  return [on, ...PICTURED.filter((id) => id !== on)].flatMap((id) => {
    const words = measureWords(id);
    const rows = drawn(values).flatMap((one) => {
      const estimate = one.measures.find(({ measure }) => measure === id)?.estimate;
      if (estimate === undefined || estimate.mean === null) return [];
      const { mean, low, high } = estimate;
      const whole = low !== null && high !== null;
      return [{ x: one.value, mean, low: low ?? mean, high: high ?? mean, whole }];
    });
    const [first] = rows;
    const last = rows.at(-1);
    if (first === undefined || last === undefined || rows.every(({ high }) => high === 0)) return [];
    const at = (x: number): string => {
      const one = values.find(({ value }) => value === x) as SweepValue;
      return words.mean(one.measures.find(({ measure }) => measure === id)?.estimate as Estimate);
    };
    const chosen = rows.find(({ x }) => x === recommended);
    return [
      {
        shape: 'ribbon',
        id,
        title: `${capital(words.title)}, by ${varied.axis}`,
        caption: `${capital(words.title)} with the 95 % interval${rows.some(({ whole }) => !whole) ? ', or the mean alone where there is none' : ''}: ${at(first.x)} with ${varied.having(first.x)}, ${at(last.x)} with ${varied.having(last.x)}${chosen === undefined ? '' : `; ${at(chosen.x)} with the recommended ${varied.short(chosen.x)}`}.`,
        axis: words.title,
        kind: words.measure.kind,
        across: { title: varied.axis, kind: 'plain' },
        rows: rows.map(({ x, mean, low, high }) => ({ x, mean, low, high })),
        lines:
          id === on && limit !== null ? [{ value: limit, label: `limit ${plainAmount(on, limit)}` }] : [],
        chosen: chosen === undefined ? null : { value: chosen.x, label: varied.cell(chosen.x) },
      },
    ];
  });
}

function sure(found: Sweep): string[] {
  const { form, values, on } = found;
  const judged = values.find(({ verdict }) => verdict !== 'not judged')?.shows ?? 0;
  const looked = values.map(({ shows }) => shows).find((shows) => shows !== judged);
  const must = keptBesides(found);
  const rule =
    form === 'limit'
      ? 'A value keeps the limit for sure when the whole of its 95 % interval does. Values were judged one by one from the safe end on, up to the first that is not sure, so that looking at many does not make it less sure: that a value is called sure which is not happens in at most 1 of 20 such answers.'
      : 'A value is enough when no other value looked at is better by more than what matters, for sure: judged from the best on, step by step, up to the first that is not. That a value is called enough which is not happens in at most 1 of 20 such answers.';
  return [
    rule,
    ...(form === 'limit' && must.length > 0 ? [`Besides the limit a value must have ${listed(must)}.`] : []),
    `Each value judged met the same ${judged} shows${looked === undefined ? '' : `, others only ${looked} for a first look`}; the shows that judge are not those by which it was found out where to look.`,
    ...(values.some((one) => isUnseen(deciding(found, one)))
      ? [
          `Where none were seen there is no upper end of ${measureWords(on).title}: how many fall at once cannot be learnt from shows in which none did.${form === 'limit' ? ' Such a value counts as keeping a limit above 0 when for sure at most 1 show in 10 sees a ball fall, by the exact binomial limit (Clopper-Pearson), which takes 36 shows without.' : ''}`,
        ]
      : []),
    ...(form === 'enough' && areTied(found)
      ? [
          `Values that come out alike in all of fewer than ${replicationsUntilRare(deciding(found, values[0] as SweepValue).confidence)} shows are not called equally good: so few shows say too little of others.`,
        ]
      : []),
    ...alikeNotes([
      ...values.map((one) => deciding(found, one)),
      ...[found.rival, found.next].flatMap((step) => step?.gain ?? []),
    ]),
    'This says how the figures move with luck, not whether the file is right.',
  ];
}

/** Whether values that were judged came out alike, in too few shows for that to say much. */
function areTied(found: Sweep): boolean {
  const judged = found.values
    .filter(({ verdict }) => verdict === 'undecided')
    .map((one) => deciding(found, one));
  return judged.some(
    ({ mean, replications, confidence }, i) =>
      !isRare(replications, confidence) && judged.some((other, j) => j > i && other.mean === mean),
  );
}

function next(found: Sweep, compare: string): string[] {
  const { recommended, form, today, values, on, changes } = found;
  const open = values.some(({ verdict }) => verdict === 'undecided');
  return [
    ...(recommended === today || changes.length === 0
      ? []
      : [`Against the file as it is: ${compare} ${changes.join(' ')}`]),
    ...(open
      ? [
          `Four times as many shows (--replications) make intervals half as wide; what is undecided may settle.`,
        ]
      : []),
    ...(form === 'limit' && recommended === null
      ? [
          `Ask again with another --limit, or with values on the safe side (--values)${found.also.length + found.rules.length === 0 ? '' : '; where such values break what must be kept besides, ask less of that'}.`,
        ]
      : []),
    ...(form === 'limit' && on === 'spill_hour_share'
      ? ['If some spills are fine, ask again and say how many with --on spills_per_hour --limit 20.']
      : []),
  ];
}
