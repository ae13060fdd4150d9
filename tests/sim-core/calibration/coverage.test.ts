import { describe, expect, it } from 'vitest';
import {
  buildDistribution,
  type CauseFit,
  fitModule,
  pooledRates,
  stream,
  type Uniform,
} from '../../../packages/sim-core/src/index.js';
import type { BatchSeen, ModuleRecord } from '../../../packages/sim-core/src/logs/index.js';
import { benchRecord, type TrueModule } from './benchRecord.js';

/*
 * Logs made from known parameters are fitted again: does the 95 % interval hold the truth in 93 to 97 % of 1,000 trials?
 * (A share of 95 % has a standard error of 0.7 % over 1,000 trials, so 93 to 97 % is about three of them.)
 *
 * Counts are whole, so limits that are right for each true rate must be too wide for most: exact limits are asked to hold the
 * truth in 95 % at least (less three standard errors), and those of Jeffreys, which are right on average, to meet 93 to 97 %.
 */
const TRIALS = 1000;
const THREE_ERRORS = 3 * Math.sqrt((0.95 * 0.05) / TRIALS);

interface Limited {
  readonly low: number | null;
  readonly high: number | null;
}

/** Counts how often limits hold the truth. */
class Coverage {
  trials = 0;
  held = 0;

  add(limits: Limited | undefined | null, truth: number): void {
    this.trials++;
    if (limits === undefined || limits === null) return;
    if ((limits.low ?? -Infinity) <= truth && truth <= (limits.high ?? Infinity)) this.held++;
  }

  get share(): number {
    return this.held / this.trials;
  }

  expectCalibrated(name: string): void {
    expect(this.trials, name).toBeGreaterThanOrEqual(0.9 * TRIALS);
    expect(this.share, name).toBeGreaterThanOrEqual(0.93);
    expect(this.share, name).toBeLessThanOrEqual(0.97);
  }

  expectSafe(name: string): void {
    expect(this.share, name).toBeGreaterThanOrEqual(0.95 - THREE_ERRORS);
  }
}

function uniformFor(purpose: string): Uniform {
  return stream({ seed: 6, replication: 0, place: null, purpose });
}

function trials(
  purpose: string,
  truth: (uniform: Uniform) => TrueModule,
  look: (fit: ReturnType<typeof fitModule>, truth: TrueModule) => void,
  options: Parameters<typeof fitModule>[1] = {},
): void {
  const uniform = uniformFor(purpose);
  for (let i = 0; i < TRIALS; i++) {
    const one = truth(uniform);
    look(fitModule(benchRecord(one, uniform), { samples: 0, causes: ['jam'], ...options }), one);
  }
}

const jam = ({ causes }: ReturnType<typeof fitModule>): CauseFit | undefined => causes[0];

/** A rate anywhere between two, as likely on each scale of ten. */
function logUniform(uniform: Uniform, from: number, to: number): number {
  return from * (to / from) ** uniform();
}

describe('an hour on the bench, fitted again', () => {
  it('holds cycle mean, cv, catch, stops an hour and clear mean', () => {
    const cover = {
      mean: new Coverage(),
      cv: new Coverage(),
      catch: new Coverage(),
      catchExact: new Coverage(),
      rate: new Coverage(),
      rateExact: new Coverage(),
      clear: new Coverage(),
    };
    trials(
      'bench hour',
      () => ({
        seconds: 3600,
        cycle: { family: 'lognormal', mean: 30, cv: 0.1 },
        batch: 5,
        catch: 0.9,
        stops: { family: 'exponential', mean: 300 },
        clear: { family: 'lognormal', mean: 40, cv: 0.7 },
      }),
      (fit) => {
        cover.mean.add(fit.cycle?.mean, 30);
        cover.cv.add(fit.cycle?.cv, 0.1);
        cover.catch.add(fit.batch?.catch?.chance, 0.9);
        cover.catchExact.add(fit.batch?.catch?.exact, 0.9);
        cover.rate.add(jam(fit)?.rate, 1 / 300);
        cover.rateExact.add(jam(fit)?.exact, 1 / 300);
        cover.clear.add(jam(fit)?.clear?.mean, 40);
      },
      { batch: 5 },
    );
    cover.mean.expectCalibrated('cycle mean');
    cover.cv.expectCalibrated('cycle cv');
    cover.catch.expectCalibrated('catch');
    cover.catchExact.expectSafe('catch, exact');
    cover.rate.expectCalibrated('stops per running hour');
    cover.rateExact.expectSafe('stops per running hour, exact');
    cover.clear.expectCalibrated('clear mean');
  });

  it('holds the rate of stops when there are few or none', () => {
    const cover = { rate: new Coverage(), exact: new Coverage() };
    let none = 0;
    trials(
      'few stops',
      (uniform) => ({
        seconds: 3600,
        stops: { family: 'exponential', mean: 3600 / logUniform(uniform, 0.2, 5) },
      }),
      (fit, { stops }) => {
        const rate = stops?.family === 'exponential' ? 1 / stops.mean : NaN;
        cover.rate.add(jam(fit)?.rate, rate);
        cover.exact.add(jam(fit)?.exact, rate);
        if (jam(fit)?.stops === 0) none++;
      },
    );
    // In a third or more of these hours nothing stops.
    expect(none).toBeGreaterThan(TRIALS / 4);
    cover.rate.expectCalibrated('few stops');
    cover.exact.expectSafe('few stops, exact');
  });

  it('holds the chance of a stop in each cycle, also when few or none were seen', () => {
    const cover = { many: new Coverage(), few: new Coverage(), exact: new Coverage() };
    const clocks = { clocks: { jam: 'per_cycle' } } as const;
    const cycle = { family: 'constant', value: 10 } as const;
    trials(
      'per cycle',
      () => ({ seconds: 2400, cycle, perCycle: 0.04, clear: { family: 'constant', value: 10 } }),
      (fit) => cover.many.add(jam(fit)?.rate, 0.04),
      clocks,
    );
    trials(
      'per cycle, few',
      (uniform) => ({ seconds: 2400, cycle, perCycle: logUniform(uniform, 0.001, 0.03) }),
      (fit, { perCycle = NaN }) => {
        cover.few.add(jam(fit)?.rate, perCycle);
        cover.exact.add(jam(fit)?.exact, perCycle);
      },
      clocks,
    );
    cover.many.expectCalibrated('stops per cycle');
    cover.few.expectCalibrated('stops per cycle, few');
    cover.exact.expectSafe('stops per cycle, exact');
  });

  it('holds the shape of a Weibull clock, the last piece censored', () => {
    const cover = new Coverage();
    trials(
      'wear',
      () => ({
        seconds: 7200,
        stops: { family: 'weibull', scale: 600, shape: 2 },
        clear: { family: 'constant', value: 20 },
      }),
      (fit) => cover.add(jam(fit)?.wear, 2),
    );
    cover.expectCalibrated('Weibull shape');
  });

  it('claims wear in 3 to 7 % of modules that have none', () => {
    let claimed = 0;
    trials(
      'no wear',
      () => ({ seconds: 3600, stops: { family: 'exponential', mean: 360 } }),
      (fit) => {
        if ((jam(fit)?.wear?.pValue ?? 1) < 0.05) claimed++;
      },
    );
    expect(claimed / TRIALS).toBeGreaterThan(0.03);
    expect(claimed / TRIALS).toBeLessThan(0.07);
  });

  it('holds the crowding factor', () => {
    const cover = { times: new Coverage(), exact: new Coverage() };
    const uniform = uniformFor('crowding');
    for (let i = 0; i < TRIALS; i++) {
      const fit = fitModule(crowdedRecord(3, 1 / 300, uniform), { samples: 0 });
      cover.times.add(fit.anyStop.crowding?.times, 3);
      cover.exact.add(fit.anyStop.crowding?.exact, 3);
    }
    cover.times.expectCalibrated('crowding factor');
    cover.exact.expectSafe('crowding factor, exact');
  });

  it('holds the rates of copies of one design, on average over families', () => {
    const cover = new Coverage();
    const uniform = uniformFor('copies');
    const exposures = [0.5, 1, 1, 2, 4];
    for (let i = 0; i < TRIALS; i++) {
      // Anything from copies that hardly differ to a coefficient of variation of 1; one stop an hour to ten.
      const mean = logUniform(uniform, 1, 10);
      const family = buildDistribution({ family: 'gamma', mean, cv: 0.1 + 0.9 * uniform() });
      const rates = exposures.map(() => family.sample(uniform));
      const counts = exposures.map((exposure, j) => ({
        events: poisson((rates[j] ?? NaN) * exposure, uniform),
        exposure,
      }));
      const { copies } = pooledRates(counts, 0.95);
      // One copy a trial, in turn, so that trials are independent.
      cover.add(copies[i % copies.length], rates[i % copies.length] ?? NaN);
    }
    cover.expectCalibrated('pooled rates');
  });
});

/** Levels by turns low and high, each until the next batch; stops more often at the high ones, cleared at once. */
function crowdedRecord(times: number, rate: number, uniform: Uniform): ModuleRecord {
  const batches: BatchSeen[] = [];
  const stops: { cause: string; from: number; cleared: number }[] = [];
  for (let at = 0; at < 3600; at += 120) {
    const level = at % 600 < 300 ? 0.4 : 0.9;
    batches.push({ at, balls: 1, level });
    const pace = level > 0.7 ? rate * times : rate;
    for (let t = -Math.log(uniform()) / pace; t < 120; t += -Math.log(uniform()) / pace)
      stops.push({ cause: 'jam', from: at + t, cleared: at + t });
  }
  return { module: 'lift', where: 'show', watched: [{ from: 0, to: 3600 }], batches, stops, spills: [] };
}

function poisson(mean: number, uniform: Uniform): number {
  let count = 0;
  for (let t = -Math.log(uniform()); t < mean; t -= Math.log(uniform())) count++;
  return count;
}
