import { requireParameter } from '../errors/index.js';
import type { ModuleRecord } from '../logs/index.js';
import { stream } from '../random/index.js';
import { jeffreysProportion } from '../statistics/index.js';
import { cycleGaps } from './cycleGaps.js';
import type { Figure } from './figure.js';
import { fitBatch } from './fitBatch.js';
import { type CauseFit, type CauseSeen, fitCause, rarer } from './fitCause.js';
import { type ClearFit, fitClear } from './fitClear.js';
import { aboveFree, fitCrowding, isShown } from './fitCrowding.js';
import { fitCycle } from './fitCycle.js';
import { fitDrift } from './fitDrift.js';
import { notesOf } from './fitNotes.js';
import { type FitOptions, type FullFitOptions, fullFitOptions } from './fitOptions.js';
import type { ModuleFit } from './moduleFit.js';
import { runningClock, runningTime, stopEnd } from './runningTime.js';

/** A cause with fewer clear times than this borrows those of the other causes. */
const OWN_CLEARS = 5;

/**
 * From what was seen of one module to its parameters, each with its interval: cycle time, batch and catch, stops by cause
 * with their clock, clear times, crowding, drift. Several records (bench and show, several days) are joined; the running
 * clock of each cause begins anew with each record, and its last piece, in which nothing stopped, counts as censored.
 *
 * @param records of one module, at least one
 * @throws ParameterError when there is no record, they are of several modules, nothing was watched, or an option is out of
 *   range
 * @example
 * const record = { module: 'lift', where: 'bench', watched: [{ from: 0, to: 3600 }], spills: [],
 *   batches: Array.from({ length: 1000 }, (_, i) => ({ at: 3 * i + 3, balls: 2 })),
 *   stops: [{ cause: 'jam', from: 3100, cleared: 3160 }, { cause: 'jam', from: 3400, cleared: 3440 }] };
 * const fit = fitModule(record);
 * [fit.cycle.spec, fit.batch.batch, fit.runningSeconds, fit.causes[0].stops] // => [{ family: 'constant', value: 3 }, 2, 3500, 2]
 */
export function fitModule(
  records: ModuleRecord | readonly ModuleRecord[],
  options: FitOptions = {},
): ModuleFit {
  const all: readonly ModuleRecord[] = 'module' in records ? [records] : records;
  const [first] = all;
  requireParameter(first !== undefined, 'fitModule', 'records', all, 'at least one record');
  const other = all.find(({ module }) => module !== first.module);
  requireParameter(other === undefined, 'fitModule', 'records', other?.module, `all of ${first.module}`);
  const full = fullFitOptions(options);
  const uniformFor = (purpose: string): (() => number) =>
    stream({ seed: full.seed, replication: 0, place: first.module, purpose: `fit:${purpose}` });

  const times = all.map(runningTime);
  const watchedSeconds = times.reduce((sum, time) => sum + time.watchedSeconds, 0);
  const runningSeconds = times.reduce((sum, time) => sum + time.runningSeconds, 0);
  requireParameter(runningSeconds > 0, 'fitModule', 'running time', runningSeconds, 'above 0 s');

  const gaps = cycleGaps(all);
  const bench = all.filter(({ where }) => where === 'bench');
  const cycle = fitCycle(gaps, {
    confidence: full.confidence,
    samples: full.samples,
    uniform: uniformFor('cycle'),
  });
  const batch = fitBatch(all, bench.length === all.length ? gaps : cycleGaps(bench), full);
  const over = {
    running: runningSeconds,
    per_cycle: Math.round(runningSeconds / (cycle?.mean.value ?? NaN)),
    per_ball: Math.round(runningSeconds / (cycle?.mean.value ?? NaN)) * (batch?.batch ?? NaN),
  };

  const clears = clearTimes(all, null, full);
  const names = [
    ...new Set([...all.flatMap(({ stops }) => stops.map(({ cause }) => cause)), ...full.causes]),
  ];
  const fitted = (cause: string | null): CauseFit => {
    const clock =
      cause !== null && Object.hasOwn(full.clocks, cause) ? (full.clocks[cause] ?? 'running') : 'running';
    requireParameter(
      over[clock] > 0,
      'fitModule',
      `clocks.${cause ?? ''}`,
      clock,
      'running: no batches were timed and counted, so cycles and balls are not known',
    );
    const own = clearTimes(all, cause, full);
    const pooled = cause !== null && own.seconds.length < OWN_CLEARS && names.length > 1;
    const taken = pooled ? clears : own;
    const seen = seenOf(all, cause, clock, over[clock]);
    const crowding = fitCrowding(all, cause, { above: full.crowdedAbove, confidence: full.confidence });
    // Several causes mixed tell nothing of wear.
    const fit = fitCause(cause === null ? { ...seen, between: [] } : seen, full.confidence);
    return {
      ...fit,
      // Where a scenario says that it stops more often while crowded, its rate is the one while it is not.
      trigger: isShown(crowding) ? rarer(fit.trigger, aboveFree(crowding)) : fit.trigger,
      clear: clearOf(taken, pooled),
      crowding,
      drops: dropsOf(all, cause, batch?.batch ?? null, full.confidence),
    };
    function clearOf(
      { seconds, open }: { readonly seconds: readonly number[]; readonly open: readonly number[] },
      pool: boolean,
    ): ClearFit | null {
      return fitClear(seconds, open, {
        confidence: full.confidence,
        samples: full.samples,
        uniform: uniformFor(pool || cause === null ? 'clear' : `clear:${cause}`),
        pooled: pool,
      });
    }
  };
  const fit = {
    module: first.module,
    ...(first.builder === undefined ? {} : { builder: first.builder }),
    ...(first.design === undefined ? {} : { design: first.design }),
    records: all.length,
    watchedSeconds,
    runningSeconds,
    cycle,
    batch,
    causes: names.map(fitted).toSorted((a, b) => b.stops - a.stops),
    anyStop: fitted(null),
    drift: fitDrift(all, cycle),
  };
  return { ...fit, notes: notesOf(fit, all, full) };
}

/** Stops of a cause, and running time between them. */
function seenOf(
  records: readonly ModuleRecord[],
  cause: string | null,
  clock: CauseSeen['clock'],
  over: number,
): CauseSeen {
  const between: number[] = [];
  const rest: number[] = [];
  let stops = 0;
  for (const record of records) {
    const { ran, runningSeconds } = runningTime(record);
    const ranBy = runningClock(ran);
    let last = 0;
    for (const stop of record.stops) {
      if (cause !== null && stop.cause !== cause) continue;
      const at = ranBy(stop.from);
      between.push(at - last);
      last = at;
      stops++;
    }
    rest.push(Math.max(0, runningSeconds - last));
  }
  return { cause: cause ?? 'any', stops, clock, over, between, rest };
}

/** Seconds from a stop until it was cleared, the way there taken off; and of those not seen cleared. */
function clearTimes(
  records: readonly ModuleRecord[],
  cause: string | null,
  { reachSeconds }: FullFitOptions,
): { readonly seconds: number[]; readonly open: number[] } {
  const seconds: number[] = [];
  const open: number[] = [];
  for (const record of records) {
    for (const stop of record.stops) {
      if (cause !== null && stop.cause !== cause) continue;
      const reach = record.where === 'show' ? reachSeconds : 0;
      const lasted = stopEnd(record, stop) - stop.from - reach;
      if (lasted > 0) (stop.cleared === null ? open : seconds).push(lasted);
    }
  }
  return { seconds, open };
}

function dropsOf(
  records: readonly ModuleRecord[],
  cause: string | null,
  batch: number | null,
  confidence: number,
): Figure | null {
  const counted = records
    .flatMap(({ stops }) => stops)
    .filter((stop) => cause === null || stop.cause === cause)
    .flatMap(({ dropped }) => (dropped === undefined ? [] : [dropped]));
  if (batch === null || counted.length === 0) return null;
  const of = counted.length * batch;
  const balls = counted.reduce((sum, dropped) => sum + Math.min(batch, dropped), 0);
  return { value: balls / of, ...jeffreysProportion(balls, of, confidence), confidence, n: of };
}
