import { measureIndex } from '../experiments/index.js';
import type { Estimate } from '../statistics/index.js';
import type { Comparison, MeasureDifference } from '../studies/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { alikeNotes, rareShare } from './alikeWords.js';
import { capital, type MeasureWords, measureWords } from './measureWords.js';
import type { IntervalsPicture } from './picture.js';

/**
 * What a comparison of two loops comes to, in words, figures and a picture.
 *
 * @param before the first of the two in words
 * @param after the second
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const loop = system('as it is', exampleLoop);
 * compareAnswer('this', 'that', await compare(study, loop, loop, { replications: 3 })).verdict // => 'no difference that matters'
 */
export function compareAnswer(before: string, after: string, comparison: Comparison): AnswerParts {
  return {
    question: 'compare',
    title: `${before} against ${after}`,
    verdict: comparison.verdict,
    sentence: verdictSentence(before, after, comparison),
    because: [...pricesSentence(comparison), pairingSentence(comparison)],
    pictures: pictures(comparison),
    tables: [measuresTable(comparison), intervalsTable(comparison)].filter(({ rows }) => rows.length > 0),
    sure: sure(comparison),
    next: next(comparison),
    details: { ...comparison },
  };
}

/** What a coordinator weighs against each other; the rest follows from these. */
const WEIGHED = new Set([
  'throughput_bps',
  'spills_per_hour',
  'loop_time_s',
  'moving_share',
  'lost_per_hour',
]);

/** A change by less than this share of before is not worth a word. */
const LITTLE = 0.05;

function deciding({ on, measures }: Comparison): MeasureDifference {
  return measures[measureIndex(on)] as MeasureDifference;
}

/** The verdict with its evidence. */
function verdictSentence(before: string, after: string, comparison: Comparison): string {
  const { on, margin, verdict, more_replications: more, replications } = comparison;
  const { before: first, after: second, difference } = deciding(comparison);
  const words = measureWords(on);
  const means = `${words.brief(first)} before, ${words.brief(second)} after`;
  const figures = `${means}; the difference is ${words.interval(difference)} (95 % interval, ${replications} pairs of shows)`;
  const pair = `${after}, against ${before}`;
  const within = `up to ${words.value(margin, difference)} does not matter`;
  switch (verdict) {
    case 'better':
      return `Better: ${pair}. ${capital(words.title)}: ${figures}.`;
    case 'worse':
      return `Worse: ${pair}. ${capital(words.title)}: ${figures}.`;
    case 'no difference that matters':
      if (isUnseen(comparison) && difference.low === 0 && difference.high === 0)
        return `No difference that matters: ${pair}. ${capital(words.title)}: none in ${replications} shows of either, and as the files stand there can be none.`;
      return `No difference that matters: ${pair}. ${capital(words.title)}: ${figures}; ${within}.`;
    case 'undecided':
      return [
        `Undecided: ${pair}. ${difference.low === null ? capital(withoutInterval(comparison, words)) : `${capital(words.title)}: ${figures}; ${within}`}.`,
        ...(more === null ? [] : [`It would take about ${more} more ${more === 1 ? 'pair' : 'pairs'}.`]),
      ].join(' ');
  }
}

/** Why there is no interval of the difference that decides. */
function withoutInterval(comparison: Comparison, { title, ...words }: MeasureWords): string {
  const { before, after, difference } = deciding(comparison);
  const { replications } = difference;
  if (replications < 2)
    return `${title}: ${replications === 0 ? 'there was no pair of shows' : 'there was only one pair of shows'} in which both had something to measure`;
  if (isUnseen(comparison))
    return `${title}: none seen in ${replications} shows of either, and how many there would be in others cannot be learnt from these; that there are any happens in at most ${rareShare(difference)} of the shows of each, for sure`;
  const means = `${title} ${words.mean(before)} before, ${words.mean(after)} after`;
  if (!isAlike(comparison))
    return `${means}; ${replications} pairs of shows are too few for an interval that may be looked at early`;
  return `${means}, with the same difference in all ${replications} pairs of shows, which are too few to say that it is the same in others`;
}

/** Whether the thing that decides was seen in no show of either. */
function isUnseen(comparison: Comparison): boolean {
  const { before, after, difference } = deciding(comparison);
  const { spread } = measureWords(comparison.on).measure;
  return (
    difference.mean === 0 && before.mean === 0 && after.mean === 0 && spread !== 'mean' && spread !== 'share'
  );
}

/** Whether all pairs differ by the same. */
function isAlike(comparison: Comparison): boolean {
  return deciding(comparison).pair_worth === null && deciding(comparison).difference.replications > 1;
}

/** What surely changes for the worse by more than a little when the verdict is "better", and the other way round. */
function pricesSentence(comparison: Comparison): string[] {
  const { on, verdict, measures } = comparison;
  if (verdict !== 'better' && verdict !== 'worse') return [];
  const others = measures.flatMap(({ measure, before, after, difference: { low, high } }) => {
    const words = measureWords(measure);
    if (measure === on || !WEIGHED.has(measure) || low === null || high === null) return [];
    const little = LITTLE * Math.abs(before.mean ?? 0);
    const [least, most] = words.measure.better === 'more' ? [low, high] : [-high, -low];
    const against = verdict === 'better' ? most < -little : least > little;
    return against ? [`${words.title} ${words.brief(before)} before, ${words.brief(after)} after`] : [];
  });
  if (others.length === 0) return [];
  return [`${verdict === 'better' ? 'But it costs' : 'In return it gains'}: ${others.join('; ')}.`];
}

function pairingSentence(comparison: Comparison): string {
  const { correlation, pair_worth: worth } = deciding(comparison);
  const same = 'Show by show, both met the same luck';
  if (worth === null || correlation === null) return `${same}.`;
  const saved =
    worth > 1.05
      ? `one pair told as much as ${worth.toFixed(1)} shows of each with luck of their own`
      : 'which did not help here: the change mixes the luck up';
  return `${same} (correlation ${correlation.toFixed(2)}): ${saved}.`;
}

/** The measures in which there was anything to see. */
function inTable(measures: readonly MeasureDifference[]): MeasureDifference[] {
  const seen = ({ mean }: Estimate): boolean => mean !== null && mean !== 0;
  return measures.filter(
    ({ before, after }) => before.mean !== null && after.mean !== null && (seen(before) || seen(after)),
  );
}

function measuresTable({ measures }: Comparison): AnswerTable {
  const rows = inTable(measures).map(({ measure, before, after, difference }) => {
    const words = measureWords(measure);
    return [words.title, words.mean(before), words.mean(after), words.interval(difference)];
  });
  return { title: 'All measures', head: ['', 'before', 'after', 'difference, 95 %'], rows };
}

/** How sure each of the two is by itself; beside the means there is no room for it. */
function intervalsTable({ measures }: Comparison): AnswerTable {
  const rows = inTable(measures).map(({ measure, before, after }) => {
    const words = measureWords(measure);
    return [words.title, words.interval(before), words.interval(after)];
  });
  return { title: '95 % intervals of before and after', head: ['', 'before', 'after'], rows };
}

/** One picture for the measure that decides, as a share of before for all where there is a before. */
function pictures(comparison: Comparison): IntervalsPicture[] {
  const { on, margin } = comparison;
  const { difference } = deciding(comparison);
  const relative = comparison.measures.flatMap(({ measure, before, difference: { mean, low, high } }) => {
    const base = Math.abs(before.mean ?? 0);
    if (base === 0 || mean === null || low === null || high === null) return [];
    const {
      title,
      measure: { better },
    } = measureWords(measure);
    return [
      {
        label: `${title} (${better === 'more' ? 'more is better' : 'less is better'})`,
        mean: mean / base,
        low: low / base,
        high: high / base,
        chosen: measure === on,
      },
    ];
  });
  if (relative.length === 0 || difference.low === null) return [];
  const base = Math.abs(deciding(comparison).before.mean ?? 0);
  return [
    {
      shape: 'intervals',
      id: 'differences',
      title: 'What changes, as a share of before',
      caption: `Each line: the change of one measure as a share of its value before, with its 95 % interval; the one that decides is ${measureWords(on).title}.`,
      axis: 'change, share of before',
      kind: 'share',
      rows: relative,
      lines: [
        { value: 0, label: 'no change' },
        ...(base > 0 && margin > 0
          ? [
              { value: -margin / base, label: '' },
              { value: margin / base, label: 'does not matter' },
            ]
          : []),
      ],
    },
  ];
}

function sure({ replications, looked_early: early, measures }: Comparison): string[] {
  const shown = measures.filter(({ before, after }) => before.mean !== 0 || after.mean !== 0);
  const told = inTable(measures);
  const hasShares = told.some(({ measure }) => {
    const { kind } = measureWords(measure);
    return kind !== 'time' && !('clock' in kind) && kind.unit === '%';
  });
  return [
    `Intervals are 95 % intervals of the paired differences over ${replications} pairs of shows, by Student's t${early ? '; the one that decides holds at every look that was taken together, so that stopping when clear does not cheat' : ''}.`,
    ...(told.length > 1
      ? [
          `With ${told.length} measures in the table, one interval or another may miss by chance: the verdict rests on the one that was named beforehand.`,
        ]
      : []),
    ...(hasShares ? ['Differences of shares are in percentage points: from 96 % to 95 % is -1 %.'] : []),
    ...alikeNotes(shown.flatMap(({ before, after, difference }) => [before, after, difference])),
    'They say how much the figures would move with other luck, not whether the files are right.',
  ];
}

function next(comparison: Comparison): string[] {
  const { verdict, more_replications: more, replications } = comparison;
  if (verdict !== 'undecided') return [];
  const { on } = comparison;
  const isShare = measureWords(on).measure.kind === 'share';
  if (isUnseen(comparison) && more === null)
    return [
      isShare
        ? 'Say with --margin what difference would not matter, such as 5 %: a share of nothing seen is nothing.'
        : `Compare by what was seen, as --on throughput_bps, or by the share of shows with a spill: --on spill_show_share --margin 5%.`,
    ];
  if (deciding(comparison).difference.replications < 2)
    return ['Compare by what there is in every show, as --on throughput_bps.'];
  return [
    more === null
      ? 'No number of shows would tell these two apart: choose by something else.'
      : isAlike(comparison) && !isUnseen(comparison)
        ? `About --replications ${replications + more} would decide it.`
        : `About --replications ${replications + more} would decide it, or a wider --margin: say what difference would not matter to you.`,
  ];
}
