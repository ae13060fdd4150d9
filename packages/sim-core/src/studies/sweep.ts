import { requireParameter } from '../errors/index.js';
import { type HouseRule, MEASURES, measureIndex } from '../experiments/index.js';
import type { Study } from './study.js';
import { byEnough } from './sweep/byEnough.js';
import { byLimit } from './sweep/byLimit.js';
import type { Criterion } from './sweep/enough.js';
import { Looked } from './sweep/looked.js';
import type { Standards } from './sweep/standards.js';
import type { Sweep } from './sweep/sweepResult.js';
import type { Varied } from './sweep/varied.js';

/** How a sweep is to be made. */
export interface SweepOptions {
  /** Shows of each value that is judged. */
  readonly replications: number;
  /** Shows of each value for the first look. @default a fifth of the replications, 8 at least */
  readonly explore?: number;
  /** The measure that decides. */
  readonly on: string;
  /** What the measure is to keep to: at most, or at least where more is better. Without: what is enough. */
  readonly limit?: number;
  /** Without a limit: differences up to this do not matter. @default see `defaultMargin` */
  readonly margin?: number;
  /** Without a limit: measures by which it must be enough too, each with its default margin. @default none */
  readonly also?: readonly string[];
  /** With a limit: rules of the house; a value that surely breaks one is not recommended. @default none */
  readonly rules?: readonly HouseRule[];
  /** @default with a limit what the shows say, else as what is varied says */
  readonly want?: 'most' | 'least';
  /** @default 0.95 */
  readonly confidence?: number;
}

/** What does not matter, as a share of the mean now, and how little at least by kind of figure. */
const MARGIN_SHARE = 0.1;
const MARGIN_SHARE_OF_FLOW = 0.05;
const LEAST_MARGIN: Readonly<Record<string, number>> = { share: 0.01, perHour: 1, perShow: 0.1 };

/**
 * What does not matter unless said otherwise: a tenth of the value now, of balls passing a twentieth, but at least a ball
 * or stop an hour, or one per cent of a share.
 *
 * @example
 * [defaultMargin('spills_per_hour', 80), defaultMargin('spills_per_hour', 2), defaultMargin('loop_time_s', 700)] // => [8, 1, 70]
 */
export function defaultMargin(measure: string, now: number): number {
  const kind = MEASURES[measureIndex(measure)]?.kind ?? '';
  const share = kind === 'bps' ? MARGIN_SHARE_OF_FLOW : MARGIN_SHARE;
  return Math.max(share * Math.abs(now), LEAST_MARGIN[kind] ?? 0);
}

/** Shows for a first look, when nobody says. */
export function firstLook(replications: number): number {
  return Math.max(8, Math.ceil(replications / 5));
}

/**
 * The same loop with one thing varied, and the value to take. All values meet the same luck.
 *
 * With a limit it is the furthest value for which the limit is kept for sure, that surely breaks no rule of the house, and
 * with which for sure as many balls pass as now, but for a margin, or as many as the rules ask for; of what brings the balls
 * in that last is not asked, since their flow is what is varied. Without a limit it is the one furthest on the cheap side on
 * which no other value gains more than a margin, for sure. What a first look has chosen is judged with fresh shows, so that
 * what was lucky there gains nothing by it.
 *
 * @throws ParameterError when an option cannot be used
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const withBasket = (capacity) => ({ ...exampleLoop, modules: exampleLoop.modules.map((one) => ({ ...one, basket: { ...one.basket, capacity } })) });
 * const grid = { values: [50, 100, 150], step: 50, min: 10, whole: true, fixed: true };
 * const baskets = { thing: { kind: 'key', key: 'baskets', unit: '' }, now: exampleLoop, today: 150, at: withBasket, grid, want: 'least' };
 * (await sweep(study, baskets, { replications: 40, on: 'spills_per_hour' })).recommended // => 50
 */
export async function sweep(study: Study, varied: Varied, options: SweepOptions): Promise<Sweep> {
  const { replications, on, limit, margin, also = [], want, confidence = 0.95 } = options;
  const { explore = firstLook(replications) } = options;
  for (const [name, count] of Object.entries({ replications, explore }))
    requireParameter(
      Number.isSafeInteger(count) && count >= 2,
      'sweep',
      name,
      count,
      'a whole number from 2',
    );
  requireParameter(limit === undefined || Number.isFinite(limit), 'sweep', 'limit', limit, 'a finite number');
  requireParameter(
    margin === undefined || (margin >= 0 && margin < Infinity),
    'sweep',
    'margin',
    margin,
    'a finite number from 0',
  );
  const look = { explore, replications, confidence, on };
  const looked = new Looked(study, varied.at, look);
  const values = varied.grid.values.filter((value) => looked.can(value));
  requireParameter(values.length >= 2, 'sweep', 'grid.values', values, 'two values at least');
  const asItIs = new Looked(study, () => varied.now, look);
  study.expect([asItIs.systemAt(0), ...values.map((value) => looked.systemAt(value))], explore);
  await asItIs.explore([0]);
  await looked.explore(values);
  const before = asItIs.estimates(0);
  const criterion = (measure: string): Criterion => ({
    measure,
    margin: defaultMargin(measure, before[measureIndex(measure)]?.estimate.mean ?? 0),
  });
  const standards = standardsOf(varied, options, criterion);
  if (limit !== undefined && standards.asNow !== null) await asItIs.judge([0]);
  const { recommendation, verdictOf, decidedBy } =
    limit === undefined
      ? await byEnough(
          looked,
          varied,
          [{ ...criterion(on), ...(margin !== undefined && { margin }) }, ...also.map(criterion)],
          want,
        )
      : await byLimit(looked, varied, limit, want, standards, asItIs);
  const { recommended } = recommendation;
  // What is recommended is told beside what there is now: both with the same shows.
  const known = varied.today !== null && looked.values.includes(varied.today) ? varied.today : null;
  if (known === null) await asItIs.judge([0]);
  else if (!looked.isJudged(known)) await looked.judge([known]);
  return {
    thing: varied.thing,
    today: varied.today,
    on,
    ...recommendation,
    now: known === null ? asItIs.estimates(0) : looked.estimates(known),
    changes: recommended === null ? [] : (varied.changes?.(recommended) ?? []),
    values: looked.values.map((value) => ({
      value,
      measures: looked.estimates(value),
      verdict: verdictOf(value),
      decided_by: decidedBy(value),
      shows: looked.isJudged(value) ? replications : explore,
    })),
  };
}

const FLOW = 'throughput_bps';

/** What must be kept besides a limit: a loop that stands still spills nothing. */
function standardsOf(
  { thing }: Varied,
  { on, rules = [] }: SweepOptions,
  criterion: (measure: string) => Criterion,
): Standards {
  const bringsBalls =
    thing.kind === 'balls' || (thing.kind === 'key' && /^(charge|feed|supply)(\.|$)/.test(thing.key));
  const isAsked = on !== FLOW && !bringsBalls;
  const isRuled = rules.some(({ measure }) => measure === FLOW);
  return {
    rules,
    surely: isAsked && isRuled ? FLOW : null,
    asNow: isAsked && !isRuled ? criterion(FLOW) : null,
  };
}
