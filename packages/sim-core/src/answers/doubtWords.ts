import { estimatePhrase, intervalPhrase, listing } from '../findings/index.js';
import type { Inline, JudgedLoop, LookedInDoubt, RuleCheck, RuleDoubt } from '../studies/index.js';
import { formatSeconds, formatShare } from '../units/index.js';
import type { AnswerTable } from './answer.js';
import type { IntervalsPicture } from './picture.js';
import { ruleWords } from './ruleWords.js';

/** Modules in the table of what another hour would do. */
const MOST_MODULES = 8;

/** A module with how long it was counted for. */
export interface CountedModule {
  readonly module: string;
  readonly counted_s: number;
}

/**
 * Whose figures were counted, and for how long.
 *
 * @example
 * countedPhrase([{ module: 'lantern-stairs', counted_s: 3300 }]) // => 'Figures of lantern-stairs come from a count of 55 min'
 */
export function countedPhrase(counted: readonly CountedModule[]): string {
  const [only] = counted;
  if (only !== undefined && counted.length === 1)
    return `Figures of ${only.module} come from a count of ${roughly(only.counted_s)}`;
  const each = counted.map(({ module, counted_s: time }) => `${module} (${roughly(time)})`);
  return `Figures of ${listing(each)} come from counts`;
}

/** To whole percents: these shares are no sharper. */
function percent(share: number): string {
  return formatShare(Math.round(100 * share) / 100);
}

/** To the minute from two minutes on. */
function roughly(seconds: number): string {
  return formatSeconds(seconds < 120 ? seconds : 60 * Math.round(seconds / 60));
}

/** The loop with the module as it is to be told: with what its figures were counted from kept in mind. */
export function toldInDoubt({ with_it: own, doubt }: Inline): JudgedLoop {
  return doubt === null ? own : { ...own, ...doubt.judgement };
}

/** What the counts do to the verdict, in sentences. */
export function doubtSentences(found: Inline): string[] {
  const { doubt, with_it: own, module } = found;
  if (doubt === null) return [];
  const rule = own.rules.find(({ name }) => name === doubt.judgement.decides) as RuleCheck;
  const open = doubt.rules.find(({ name }) => name === rule.name) as RuleDoubt;
  const { kind, title } = ruleWords(rule.name);
  const such = doubt.counted.every((one) => one.module === module) ? 'modules' : 'loops';
  return [
    `${countedPhrase(doubt.counted)}, and that is kept in mind.`,
    ...(open.keeps === null
      ? []
      : [
          `With what was counted, ${outOfTen(open.keeps, doubt.draws)} such ${such} would keep the rule of ${title}.`,
        ]),
    `Taken at their word, the figures would say ${own.verdict}; ${title}: ${estimatePhrase(rule.estimate, kind)}.`,
    ...splitSentence(open),
  ];
}

/** None of so many draws leaves less than 1 in 20 open (0.95^59 < 0.05). */
const DRAWS_FOR_TWENTIETHS = 59;

function outOfTen(share: number, draws: number): string {
  const enough = draws >= DRAWS_FOR_TWENTIETHS;
  if (share < 0.05) return enough ? 'fewer than 1 of 20' : 'few or none of';
  if (share > 0.95) return enough ? 'more than 19 of 20' : 'most or all of';
  return `about ${Math.max(1, Math.min(9, Math.round(10 * share)))} of 10`;
}

function splitSentence({ few_data: few }: RuleDoubt): string[] {
  if (few === null) return [];
  if (few.low === 0)
    return [
      `How much of the spread of a single show comes from few data cannot be told: ${percent(few.high)} at most; the rest is luck of the day.`,
    ];
  return [
    `Of the spread of a single show, ${percent(few.mean)} (95 % interval: ${shares(few)}) comes from few data, the rest is luck of the day.`,
  ];
}

/** An interval of shares, to whole percents as well, so that the estimate lies in it as written. */
function shares({ low, high }: { readonly low: number; readonly high: number }): string {
  return `${percent(low).replace(/ %$/, '')} to ${percent(high)}`;
}

/** How sure that is. */
export function doubtSure({ draws, shows_per_draw: each }: LookedInDoubt): string[] {
  return [
    `For the verdict the counted parameters were drawn ${draws} times from what the counts leave open, ${each} shows of each draw; its interval is for the real loop, of which no more than the counts is known. The more luck of the day there is, the more cautious it is.`,
    'The loops beside it, the search for a place and the most stops it could have take all figures at their word.',
  ];
}

/** Which module to count for another hour. */
export function benchAdvice({ bench, draws }: LookedInDoubt): string {
  const [first] = bench.gains;
  if (bench.best === null || first === undefined)
    return `Which module to count for another hour cannot be told: none stands out from luck in ${draws} draws. More would tell more: --draws ${4 * draws}`;
  const narrower = percent(1 - Math.sqrt(1 - first.takes_off));
  return `Count ${bench.best} for another hour: that would make what few data leave open about ${narrower} narrower${bench.gains.length > 1 ? ', more than an hour with any other would' : ''}.`;
}

/** At its word and with the counts, rule by rule; and what another hour would do. */
export function doubtTables({ doubt, with_it: own }: Inline): AnswerTable[] {
  if (doubt === null) return [];
  const rows = own.rules.map((rule, i) => {
    const { kind, title } = ruleWords(rule.name);
    const wide = doubt.judgement.rules[i] as RuleCheck;
    const { keeps, few_data: few } = doubt.rules[i] as RuleDoubt;
    return [
      title,
      intervalPhrase(rule.estimate, kind),
      intervalPhrase(wide.estimate, kind),
      keeps === null ? '' : percent(keeps),
      few === null ? '' : shares(few),
    ];
  });
  const { gains } = doubt.bench;
  return [
    {
      title: 'What the counts leave open',
      head: ['', 'at their word, 95 %', 'with the counts, 95 %', 'keep the rule', 'from few data, 95 %'],
      rows,
    },
    ...(gains.length < 2
      ? []
      : [
          {
            title: 'Another hour on the bench: variance that few data leave in the figure',
            head: ['module', 'counted', 'share of their variance', 'an hour takes off'],
            rows: gains
              .slice(0, MOST_MODULES)
              .map(({ module, counted_s: time, share, takes_off: off }) => [
                module,
                roughly(time),
                percent(share),
                percent(off),
              ]),
          },
        ]),
  ];
}

/** Two bars for each rule: at their word and with the counts, as shares of the limit. */
export function doubtPicture({ doubt, with_it: own }: Inline, bar: Bar): IntervalsPicture[] {
  if (doubt === null) return [];
  const told: JudgedLoop = { ...own, ...doubt.judgement, label: 'with the counts kept in mind' };
  const naive: JudgedLoop = { ...own, label: 'figures at their word' };
  const rows = own.rules.flatMap((_, i) => [...bar(told, i, true), ...bar(naive, i, false)]);
  if (rows.length === 0) return [];
  const each = doubt.rules.flatMap(({ name, keeps }) =>
    keeps === null ? [] : [`${ruleWords(name).title} ${percent(keeps)}`],
  );
  return [
    {
      shape: 'intervals',
      id: 'counted',
      title: 'What few counts leave open',
      caption: `How much of its limit each figure uses up: with the counts kept in mind, and as if they told all. So many of the loops that the counts leave possible keep the rule: ${each.join(', ')}.`,
      axis: 'used up of the limit',
      kind: 'share',
      rows,
      lines: [{ value: 1, label: 'the limit' }],
    },
  ];
}

/** The bar of one rule of a loop; none where it has no share. */
type Bar = (loop: JudgedLoop, rule: number, chosen: boolean) => IntervalsPicture['rows'];
