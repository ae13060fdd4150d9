import type { CauseFit, DesignPool, Figure, ModuleFit, UnseenCause } from '../calibration/index.js';
import { buildDistribution } from '../distributions/index.js';
import { type QuantilePoint, quantilePoints } from '../statistics/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { perWords, scaled, unseenNotes, watchedFor } from './causeWords.js';
import type { IntervalsPicture, Picture, PointsPicture } from './picture.js';

/** Points of a picture; of thousands of cycles so many are shown. */
const MOST_POINTS = 200;
/** Modules that get pictures of their own. */
const MOST_PICTURED = 4;

/** What the words need to know besides the fits. */
export interface FitContext {
  /** What was read, in words: the names of the logs. */
  readonly log: string;
  /** Rows that could not be used. */
  readonly leftOut: number;
  /** Where the figures were written; null when nowhere. */
  readonly into: string | null;
  /** Of modules that a scenario has, causes that it gives them and nobody saw. @default none */
  readonly unseen?: ReadonlyMap<string, readonly UnseenCause[]>;
}

/**
 * From logs to parameters: each figure with its interval and what it rests on, module by module.
 *
 * @example
 * fitAnswer([], [], { log: 'bench.csv', leftOut: 0, into: null }).verdict // => 'nothing to fit'
 */
export function fitAnswer(
  fits: readonly ModuleFit[],
  pools: readonly DesignPool[],
  context: FitContext,
): AnswerParts {
  const { log, into } = context;
  return {
    question: 'fit',
    title: `${log}: what it says of the modules`,
    verdict: fits.length === 0 ? 'nothing to fit' : 'fitted',
    sentence: sentence(fits, context),
    because: because(fits, context),
    pictures: fits.length > MOST_PICTURED ? ratesPicture(fits) : fits.flatMap(picturesOf),
    tables: [...fits.map((fit) => figuresTable(fit, context)), ...pools.flatMap(poolTables)],
    sure: sure(fits, pools),
    next: next(fits, into),
    details: {
      modules: fits.map((fit) => detailsOf(fit, context)),
      designs: pools.map(({ design, causes, modules }) => ({
        design,
        causes: causes.map(({ cause, rates }) => ({
          cause,
          family_rate: rates.familyMean,
          copies: rates.copies.map(({ own, mean, low, high, drawn }, i) => ({
            module: modules[i]?.module ?? '',
            own,
            pooled: mean,
            low,
            high,
            drawn,
          })),
        })),
      })),
      into,
    },
    counts_kept: true,
  };
}

function sentence(fits: readonly ModuleFit[], { log }: FitContext): string {
  const [fit] = fits;
  if (fit === undefined) return `${log} says nothing of any module that was watched while it ran.`;
  if (fits.length > 1)
    return `${log} tells of ${fits.length} modules, watched for ${formatSeconds(longest(fits))} at most; each figure stands below with what is open about it.`;
  const { cycle, batch, anyStop, module, runningSeconds } = fit;
  const parts = [
    ...(cycle === null
      ? []
      : [
          `a cycle takes ${seconds(cycle.mean.value)} (95 % interval: ${limits(cycle.mean, seconds)}, ${cycle.mean.n} cycles)`,
        ]),
    ...(batch === null ? [] : [`it lifts up to ${batch.batch}`]),
    `it stops ${hourly(anyStop.rate.value)} times per hour of running (95 % interval: ${rateLimits(anyStop)}, ${count(anyStop.stops, 'stop')} in ${formatSeconds(runningSeconds)})`,
  ];
  return `${module}: ${parts.join(', ')}.`;
}

function because(fits: readonly ModuleFit[], context: FitContext): string[] {
  const { leftOut, log } = context;
  const notes = fits.flatMap((fit) =>
    [...fit.notes, ...unseenNotes(fit, context.unseen?.get(fit.module) ?? [])].map((note) =>
      fits.length === 1 ? note : `${fit.module}: ${note}`,
    ),
  );
  return [
    ...(leftOut === 0
      ? []
      : [
          `${count(leftOut, 'row')} of ${log} could not be used; each is told with its line when the log is read.`,
        ]),
    ...notes,
  ];
}

function figuresTable(fit: ModuleFit, { unseen }: FitContext): AnswerTable {
  const { module, cycle, batch, causes, anyStop } = fit;
  const stops =
    causes.length === 1
      ? causes
      : [...causes, { ...anyStop, cause: causes.length === 0 ? 'any cause' : 'any of them' }];
  return {
    title: module,
    head: ['figure', 'value', '95 % interval', 'from'],
    rows: [
      ...(cycle === null
        ? []
        : [
            [
              'cycle, mean',
              seconds(cycle.mean.value),
              limits(cycle.mean, seconds),
              count(cycle.mean.n, 'cycle'),
            ],
            ['cycle, spread (cv)', percent(cycle.cv.value), limits(cycle.cv, percent), familyWords(fit)],
          ]),
      ...(batch === null
        ? []
        : [
            [
              'batch',
              count(batch.batch, 'ball'),
              batch.given ? 'as given' : 'the most seen',
              count(batch.batches, 'batch', 'batches'),
            ],
            ...(batch.catch === null
              ? []
              : [
                  [
                    'catch',
                    percent(batch.catch.chance.value),
                    limits(batch.catch.chance, percent),
                    count(batch.catch.of, 'ball'),
                  ],
                ]),
          ]),
      ...stops.flatMap((cause) =>
        causeRows(cause, unseen?.get(module)?.find((one) => one.cause === cause.cause)?.stays === true),
      ),
    ],
  };
}

function causeRows(cause: CauseFit, stays: boolean): string[][] {
  const { stops, clear, crowding, drops } = cause;
  const name = cause.cause;
  const from = `${count(stops, 'stop')} in ${watchedFor(cause)}${stays ? '; that of the scenario stays' : ''}`;
  return [
    [`${name}: stops ${perWords(cause)}`, scaled(cause, cause.rate.value), rateLimits(cause), from],
    ...(clear === null || clear.mean.value === null
      ? []
      : [
          [
            `${name}: stop to cleared`,
            seconds(clear.mean.value),
            limits(clear.mean, seconds),
            `${count(clear.mean.n, 'time')}${clear.pooled ? ', all causes' : ''}`,
          ],
        ]),
    ...(crowding === null || crowding.times.value === null
      ? []
      : [
          [
            `${name}: when crowded`,
            `${formatNumber(crowding.times.value)} times as often`,
            limits(crowding.times, (value) => formatNumber(value ?? NaN)),
            `above ${formatShare(crowding.above)} full: ${count(crowding.crowded.events, 'stop')}; below: ${crowding.free.events}`,
          ],
        ]),
    ...(drops === null
      ? []
      : [
          [
            `${name}: balls that fall out`,
            percent(drops.value),
            limits(drops, percent),
            count(drops.n, 'ball'),
          ],
        ]),
  ];
}

function familyWords({ cycle }: ModuleFit): string {
  if (cycle === null) return '';
  const { spec, choice } = cycle;
  const goodness =
    choice.goodness === null ? '' : `, goodness of fit p = ${choice.goodness.pValue.toFixed(2)}`;
  return `${spec.family === 'empirical' ? 'the times themselves' : spec.family}${goodness}`;
}

function poolTables({ design, modules, causes }: DesignPool): AnswerTable[] {
  return causes.map(({ cause, rates }) => ({
    title: `${design}, ${cause}: copies of one design, drawn to their family`,
    head: ['copy', 'its own count', 'with its family', '95 % interval', 'drawn'],
    rows: rates.copies.map(({ own, mean, low, high, drawn }, i) => [
      modules[i]?.module ?? '',
      `${hourly(own)} per hour`,
      `${hourly(mean)} per hour`,
      `${hourly(low)} to ${hourly(high)}`,
      percent(drawn),
    ]),
  }));
}

function picturesOf(fit: ModuleFit): Picture[] {
  return [...quantilePicture(fit), ...ratesPicture([fit])];
}

/** Cycle times against the distribution that stands for them. */
function quantilePicture({ module, cycle }: ModuleFit): PointsPicture[] {
  const best = cycle?.choice.fits[0];
  if (cycle === null || best === undefined || cycle.seconds.length < 3) return [];
  const spec = cycle.spec.family === 'empirical' ? best.spec : cycle.spec;
  const all = quantilePoints(cycle.seconds, buildDistribution(spec));
  const points = all.filter((_, i) => i % Math.ceil(all.length / MOST_POINTS) === 0 || i === all.length - 1);
  const off = points.reduce(
    (most, { expected, seen }: QuantilePoint) => Math.max(most, Math.abs(seen - expected)),
    0,
  );
  const { goodness } = cycle.choice;
  return [
    {
      shape: 'points',
      id: `quantiles-${module}`,
      title: `${module}: cycle times against ${article(spec.family)} distribution`,
      caption: `Each dot is a cycle time beside the one that ${article(spec.family)} distribution of the same mean and spread would have in its place; on the line both are the same. The farthest is off by ${seconds(off)}.${cycle.spec.family === 'empirical' ? ` It comes nearest of the usual ones; in a scenario the times themselves stand for them.` : ''}${goodness === null ? '' : ` Such a distance or more has a chance of ${percent(goodness.pValue)} if the distribution is right (Anderson-Darling, parametric bootstrap).`}`,
      axis: 'cycle time seen',
      across: 'cycle time expected',
      kind: 'time',
      rows: points.map(({ expected, seen }) => ({ x: expected, y: seen })),
    },
  ];
}

/** Rates of stopping by running time; none where all are counted by cycles or balls. */
function ratesPicture(fits: readonly ModuleFit[]): IntervalsPicture[] {
  const rows = fits.flatMap(({ module, causes, anyStop }) =>
    (fits.length > 1 || causes.length === 0 ? [anyStop] : causes)
      .filter(({ clock }) => clock === 'running')
      .map((cause) => ({
        label: fits.length > 1 ? module : cause.cause,
        mean: 3600 * (cause.rate.value ?? 0),
        low: 3600 * (cause.stops === 0 ? 0 : (cause.rate.low ?? 0)),
        high: 3600 * (cause.stops === 0 ? cause.exact.high : (cause.rate.high ?? 0)),
        chosen: false,
      })),
  );
  if (rows.length === 0) return [];
  return [
    {
      shape: 'intervals',
      id: fits.length > 1 ? 'stops' : `stops-${fits[0]?.module ?? ''}`,
      title: fits.length > 1 ? 'Stops of each module' : `${fits[0]?.module ?? ''}: stops of each kind`,
      caption: 'Stops per running hour with the 95 % interval; the wider the bar, the less is known.',
      axis: 'stops while running',
      kind: 'perHour',
      rows,
      lines: [],
    },
  ];
}

function sure(fits: readonly ModuleFit[], pools: readonly DesignPool[]): string[] {
  if (fits.length === 0) return [];
  return [
    "Stops: intervals by Jeffreys' prior, right on average; with none seen the exact upper limit. Cycle times: Student's t. Clear times: exact for few, else for lognormal times.",
    'Families of times are fitted by maximum likelihood and chosen by AIC; where none suits, the times themselves stand for them.',
    ...pools.flatMap(({ notes }) => notes),
    ...(pools.length === 0
      ? []
      : [
          'Copies of one design are drawn to their family as far as they are alike (gamma-Poisson, what is not known of the family averaged over).',
        ]),
    'A log says how it was that day: with that crowd, that weather and those hands.',
  ];
}

function next(fits: readonly ModuleFit[], into: string | null): string[] {
  const [fit] = fits;
  if (fit === undefined) return ['See how a log is written: npx lapwright log-template bench.'];
  if (into === null)
    return ['Put the figures into a scenario: the same command with --loop my-loop.yaml --into new.yaml.'];
  return fits.length === 1
    ? [`May it go inline? npx lapwright inline ${into} ${fit.module}`]
    : [`See what they make of the loop: npx lapwright run ${into}`];
}

function detailsOf(fit: ModuleFit, { unseen }: FitContext): Record<string, unknown> {
  const { module, builder, design, watchedSeconds, runningSeconds, cycle, batch, causes, drift, notes } = fit;
  return {
    module,
    builder: builder ?? null,
    design: design ?? null,
    watched_s: watchedSeconds,
    running_s: runningSeconds,
    cycle: cycle === null ? null : { family: cycle.spec.family, mean_s: cycle.mean, cv: cycle.cv },
    batch: batch?.batch ?? null,
    catch: batch?.catch?.chance ?? null,
    stops: causes.map((cause) => ({
      cause: cause.cause,
      clock: cause.clock,
      stops: cause.stops,
      over: cause.over,
      rate: cause.rate,
      exact: cause.exact,
      clear_s: cause.clear?.mean ?? null,
      crowded_times: cause.crowding?.times ?? null,
      scenario: scenarioOf(unseen?.get(module)?.find((one) => one.cause === cause.cause)),
    })),
    stops_trend: drift.stops === null ? null : { power: drift.stops.power, chance: drift.stops.pValue },
    cycle_change_per_hour: drift.cyclePerHour,
    notes,
  };
}

/** What the scenario says of a cause that nobody saw. */
function scenarioOf(found: UnseenCause | undefined): Record<string, unknown> | null {
  return found === undefined
    ? null
    : { rate: found.rate, chance_of_none: found.chanceOfNone, stays: found.stays };
}

function longest(fits: readonly ModuleFit[]): number {
  return fits.reduce((most, { watchedSeconds }) => Math.max(most, watchedSeconds), 0);
}

/** With none seen there is only an upper limit, and it is the exact one. */
function rateLimits(cause: CauseFit): string {
  if (cause.stops === 0) return `up to ${scaled(cause, cause.exact.high)}`;
  return `${scaled(cause, cause.rate.low)} to ${scaled(cause, cause.rate.high)}`;
}

function limits({ low, high, confidence }: Figure, words: (value: number | null) => string): string {
  if (low === null || high === null) return 'no interval';
  return `${words(low)} to ${words(high)}${confidence === 0.95 ? '' : ` (${formatShare(confidence)})`}`;
}

function hourly(perSecond: number | null): string {
  return perSecond === null ? 'not seen' : formatNumber(3600 * perSecond);
}

function seconds(value: number | null): string {
  return value === null ? 'not seen' : formatSeconds(value);
}

function percent(share: number | null): string {
  if (share === null) return 'not seen';
  // What is just below 1 is not 1.
  return share < 1 && share >= 0.9995
    ? `${(Math.floor(1e5 * share) / 1e3).toFixed(2)} %`
    : formatShare(share);
}

function count(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

function article(family: string): string {
  return `${/^[aeiou]/.test(family) ? 'an' : 'a'} ${family}`;
}
