import { KINDS, type Kind, listing } from '../findings/index.js';
import type { LoggedFigure, Match, Matched } from '../studies/index.js';
import type { PredictionBand } from '../statistics/index.js';
import { clockLabel, formatSeconds, type ShowClock } from '../units/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { capital } from './measureWords.js';
import type { IntervalsPicture, KindName } from './picture.js';

/** How each kind of figure is told. */
const WORDS: Readonly<Record<LoggedFigure, { readonly title: string; readonly kind: KindName }>> = {
  stops: { title: 'stops', kind: 'plain' },
  clear_s: { title: 'from stop to cleared, on average', kind: 'time' },
  spilled: { title: 'balls spilled', kind: 'balls' },
  passes: { title: 'balls passing the counter', kind: 'balls' },
  lap_s: { title: 'laps of marked balls, on average', kind: 'time' },
};

/** The same in a word. */
const SHORT: Readonly<Record<LoggedFigure, string>> = {
  stops: 'stops',
  clear_s: 'the time until cleared',
  spilled: 'balls spilled',
  passes: 'balls passed',
  lap_s: 'laps',
};

/** Lines of a picture. */
const MOST = 24;

/** What the words need to know of the file and the logs. */
export interface MatchContext {
  /** Name of the scenario. */
  readonly name: string;
  /** What is logged, in words: the names of the files. */
  readonly log: string;
  readonly clock: ShowClock;
  /** What takes figures from the log, as it can be typed, and the file they go into. @default words in capitals for the files */
  readonly fit?: { readonly command: string; readonly into: string };
  /** Stops, spills and counter readings that lie outside the hours of the show. @default 0 */
  readonly outside?: number;
  /** Whether any time of the log lies within the hours of the show. @default true */
  readonly watched?: boolean;
}

/**
 * Whether a file matches what was logged at a show, in words, figures and pictures.
 *
 * @example
 * const nothing = { verdict: 'nothing to compare', figures: [], out: [], level: 0.05, replications: 0 };
 * matchAnswer(nothing, { name: 'Example', log: 'saturday.csv', clock: { opensAtSeconds: 36000 } }).verdict // => 'nothing to compare'
 */
export function matchAnswer(found: Match, context: MatchContext): AnswerParts {
  const { figures, verdict } = found;
  return {
    question: 'match',
    title: `${context.name}: does the file match ${context.log}?`,
    verdict,
    sentence: sentence(found, context),
    because: [...because(found), ...outWords(found, context), ...outsideWords(context)],
    pictures: [
      picture(figures, 'stops', 'Stops of each module', context),
      picture(figures, 'passes', 'Balls passing the counter, reading by reading', context),
      picture(figures, 'spilled', 'Balls spilled at each basket', context),
    ].flatMap((one) => one ?? []),
    tables:
      figures.length === 0
        ? []
        : [modulesTable(found), othersTable(found, context)].flatMap((one) => one ?? []),
    sure: verdict === 'nothing to compare' ? [] : sure(found),
    next: next(found, context),
    details: { ...found },
  };
}

function sentence({ verdict, figures, replications, level }: Match, context: MatchContext): string {
  const { log } = context;
  if (verdict === 'nothing to compare' && context.watched === false)
    return `In ${log} there is nothing that could be held against the file: nobody watched within the hours of the show. Was it another day? Say which with --day 2.`;
  if (verdict === 'nothing to compare')
    return `In ${log} there is nothing that could be held against the file: no module of the loop was watched, and no counter read.`;
  const off = figures.filter((one) => one.verdict === 'differs').toSorted((a, b) => a.chance - b.chance);
  const shows = `${replications} simulated shows`;
  const [first] = off;
  if (first === undefined)
    return `The file matches ${log}: none of ${figures.length} figures lies farther out than shows of the file lie anyway (${shows}).`;
  const others =
    off.length === 1
      ? ''
      : ` ${off.length - 1} more ${off.length === 2 ? 'figure differs' : 'figures differ'} too.`;
  return `The file does not match ${log}: ${told(first, context)}.${others} Among shows of the file a figure so far out turns up with a chance of ${percent(first.chance)} at most (${shows}); up to ${percent(level)} counts as different.`;
}

/** What was taken out by hand, and what that does to the comparison. */
function outWords({ out, figures }: Match, context: MatchContext): string[] {
  const modules = [...new Set(out.map(({ module }) => module))];
  if (modules.length === 0 || figures.length === 0) return [];
  const when = modules.map((module) => {
    const own = out.filter((one) => one.module === module);
    return `${module} from ${own.map(({ from_s: from, to_s: to }) => `${moment(from, context)} to ${moment(to, context)}`).join(' and ')}`;
  });
  const meanwhile = [
    ...(figures.some(({ figure }) => figure === 'spilled') ? ['balls spilled'] : []),
    ...(figures.some((one) => outMeanwhile(one, out).length > 0) ? ['balls passing the counter then'] : []),
    ...(figures.some(({ figure }) => figure === 'lap_s') ? ['laps'] : []),
  ];
  return [
    `Out of the loop, by the log: ${when.join('; ')}. Stops and clear times are held against the time in which ${modules.length === 1 ? 'it' : 'each'} stood there, in the log and in the simulated shows.${
      meanwhile.length === 0
        ? ''
        : ` In these shows nothing is taken out, so other figures may differ for that alone: ${listing(meanwhile, 3)}.`
    }`,
  ];
}

/** The modules that were out in part of the time between two readings of the counter. */
function outMeanwhile({ figure, from_s: from, to_s: to }: Matched, out: Match['out']): string[] {
  if (figure !== 'passes' || from === null || to === null) return [];
  return [...new Set(out.filter((one) => one.from_s < to && one.to_s > from).map(({ module }) => module))];
}

function outsideWords({ outside = 0 }: MatchContext): string[] {
  return outside === 0
    ? []
    : [
        `${outside} ${outside === 1 ? 'row' : 'rows'} (stops, spills, counter) outside the hours of the show ${outside === 1 ? 'is' : 'are'} not compared.`,
      ];
}

/** A figure beside what is predicted of it: "tipper stopped 12 times; the file makes it 2 to 7". */
function told(one: Matched, context: MatchContext): string {
  const band =
    one.predicted === null
      ? 'the file says nothing of it'
      : `the file makes it ${bandText(one, one.predicted)}`;
  switch (one.figure) {
    case 'stops':
      return `${one.module} stopped ${one.logged === 1 ? 'once' : `${one.logged} times`}; ${band}`;
    case 'clear_s':
      return `from a stop of ${one.module} until it ran again it took ${value(one, one.logged)} on average; ${band}`;
    case 'spilled':
      return `${value(one, one.logged)} fell from the basket of ${one.module}; ${band}`;
    case 'passes':
      return `from ${moment(one.from_s, context)} to ${moment(one.to_s, context)} ${value(one, one.logged)} passed the counter; ${band}`;
    case 'lap_s':
      return `laps of marked balls took ${value(one, one.logged)} on average; ${band}`;
  }
}

function because({ figures, level }: Match): string[] {
  const off = figures.filter(({ verdict }) => verdict === 'differs');
  const out = figures.filter(({ verdict }) => verdict === 'outside its band');
  const named = ({ module, figure }: Matched): string =>
    module === null
      ? WORDS[figure].title
      : `${SHORT[figure]} ${figure === 'spilled' ? 'at' : 'of'} ${module}`;
  const some = (which: readonly Matched[]): string => listing([...new Set(which.map(named))], 6);
  return [
    ...(off.length > 1 ? [`Different are ${some(off)}.`] : []),
    ...(out.length === 0
      ? []
      : [
          `${capital(some(out))}: outside ${out.length === 1 ? 'its' : 'their'} own band, but of ${figures.length} figures about ${Math.max(1, Math.round(level * figures.length))} would be by luck alone.`,
        ]),
  ];
}

function sure({ replications, level, figures }: Match): string[] {
  const few = figures.filter(
    ({ figure, predicted }) => figure === 'stops' && predicted?.low === 0 && predicted.high > 0,
  );
  return [
    `Bands hold ${percent(1 - level)} of simulated shows, figure by figure, whatever way they scatter (order statistics of ${replications} shows).`,
    `All figures together raise a false alarm in at most ${percent(level)} of shows of the file: each is held against the oddest figure of every simulated show (Westfall & Young, with Monte Carlo ranks).`,
    ...(few.length === 0
      ? []
      : [
          `A module that stops seldom can hardly be told from one that never does: of ${few.length} ${few.length === 1 ? 'module' : 'modules'} the file allows no stop at all in such a time.`,
        ]),
    'Laps of a marked ball are taken as if they were drawn from all laps of a show, one by one.',
    'A match does not prove the file: it says that this log does not speak against it.',
  ];
}

function next({ figures, verdict }: Match, { fit }: MatchContext): string[] {
  if (verdict === 'nothing to compare')
    return [
      'Write down stops with their module, or read the counter now and then: npx lapwright log-template show.',
    ];
  const modules = figures.flatMap(({ verdict: one, module, figure }) =>
    one === 'differs' && module !== null && figure !== 'spilled' ? [module] : [],
  );
  const named = [...new Set(modules)];
  const { command, into } = fit ?? { command: 'npx lapwright fit LOG --loop FILE', into: 'NEW-FILE' };
  return named.length === 0
    ? []
    : [
        `Take the figures of ${listing(named, 6)} from the log: ${command}${named.length === 1 ? ` --module ${named.join('')}` : ''} --into ${into}`,
      ];
}

function modulesTable({ figures, out }: Match): AnswerTable | null {
  const modules = [...new Set(figures.flatMap(({ module }) => module ?? []))];
  const asked = (['stops', 'clear_s', 'spilled'] as const).filter((name) =>
    figures.some(({ figure }) => figure === name),
  );
  if (modules.length === 0) return null;
  return {
    title: 'Module by module: logged, and where 95 of 100 shows of the file lie',
    head: ['module', ...asked.flatMap((name) => [WORDS[name].title, 'file says']), ''],
    rows: modules.map((module) => {
      const own = figures.filter((one) => one.module === module);
      const cells = asked.flatMap((name) => {
        const one = own.find(({ figure }) => figure === name);
        return one === undefined
          ? ['', '']
          : [value(one, one.logged), one.predicted === null ? '' : bandText(one, one.predicted)];
      });
      const away = out
        .filter((one) => one.module === module)
        .reduce((sum, { from_s: from, to_s: to }) => sum + to - from, 0);
      const name = away === 0 ? module : `${module} (out for ${formatSeconds(away, { decimals: 0 })})`;
      return [name, ...cells, says(own)];
    }),
  };
}

function othersTable({ figures, out }: Match, context: MatchContext): AnswerTable | null {
  const others = figures.filter(({ module }) => module === null);
  if (others.length === 0) return null;
  return {
    title: 'The loop as a whole',
    head: ['figure', 'logged', 'file says', ''],
    rows: others.map((one) => [
      one.figure === 'passes'
        ? `${WORDS.passes.title}, ${moment(one.from_s, context)} to ${moment(one.to_s, context)}${outSuffix(outMeanwhile(one, out))}`
        : WORDS[one.figure].title,
      value(one, one.logged),
      one.predicted === null ? '' : bandText(one, one.predicted),
      says([one]),
    ]),
  };
}

function outSuffix(modules: readonly string[]): string {
  return modules.length === 0 ? '' : ` (${listing(modules, 3)} out)`;
}

function says(figures: readonly Matched[]): string {
  if (figures.some(({ verdict }) => verdict === 'differs')) return 'differs';
  return figures.some(({ verdict }) => verdict === 'outside its band') ? 'outside its band' : 'fits';
}

function picture(
  figures: readonly Matched[],
  figure: LoggedFigure,
  title: string,
  context: MatchContext,
): IntervalsPicture | null {
  const rows = figures
    .filter((one) => one.figure === figure)
    .toSorted((a, b) => (figure === 'passes' ? 0 : a.chance - b.chance))
    .slice(0, MOST)
    .flatMap(({ module, from_s, to_s, logged, predicted, verdict }) =>
      predicted === null
        ? []
        : [
            {
              label: module ?? `${moment(from_s, context)} to ${moment(to_s, context)}`,
              mean: logged,
              low: predicted.low,
              high: predicted.high,
              chosen: verdict === 'differs',
            },
          ],
    );
  if (rows.length === 0) return null;
  const off = rows.filter(({ chosen }) => chosen).map(({ label }) => label);
  return {
    shape: 'intervals',
    id: figure,
    title,
    caption: `Dots are what was logged, bars where 95 of 100 shows of the file lie. ${off.length === 0 ? 'None differs more than luck allows.' : `${listing(off, 6)}: for sure different.`}`,
    axis: WORDS[figure].title,
    // The title says what is counted.
    kind: WORDS[figure].kind === 'time' ? 'time' : 'plain',
    rows,
    lines: [],
  };
}

function moment(seconds: number | null, { clock }: MatchContext): string {
  return seconds === null ? '' : clockLabel(clock, seconds);
}

function value({ figure }: Matched, number: number): string {
  const kind: Kind = KINDS[WORDS[figure].kind];
  if (kind === 'time') return formatSeconds(number, { decimals: 0 });
  const unit = figure === 'stops' ? '' : number === 1 ? ' ball' : ' balls';
  return `${number}${unit}`;
}

function bandText(one: Matched, { low, high }: PredictionBand): string {
  if (WORDS[one.figure].kind === 'time') return `${value(one, low)} to ${value(one, high)}`;
  return low === high ? value(one, low) : `${low} to ${value(one, high)}`;
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}
