import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import {
  drawModule,
  drawnOf,
  drawParameters,
  drawTime,
  drawWeibull,
} from '../../../packages/sim-core/src/doubt/index.js';
import { lognormalParameters } from '../../../packages/sim-core/src/distributions/index.js';
import type {
  CauseCounted,
  ModuleCounted,
  ModuleSpec,
  StopCauseSpec,
  StopTriggerSpec,
} from '../../../packages/sim-core/src/model/spec/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { momentsOf } from '../../../packages/sim-core/src/statistics/index.js';
import { holds, loop, module, seconds } from '../../build.js';

const EXPONENTIAL = { family: 'exponential', mean: 1100 } as const;

function cause(trigger: StopTriggerSpec, more: Partial<StopCauseSpec> = {}): StopCauseSpec {
  return { id: 'jam', trigger, drops: 0, remedy: { kind: 'itself', time: seconds(10) }, ...more };
}

function stair(stops: readonly StopCauseSpec[], more: Partial<ModuleSpec> = {}): ModuleSpec {
  return module('stair', { basket: holds(50), cycle: seconds(0.9), stops, ...more });
}

function counts(of: Partial<CauseCounted> = {}, more: Partial<ModuleCounted> = {}): ModuleCounted {
  return { module: 'stair', stops: [{ cause: 'jam', stops: 3, over: 3300, clears: 0, ...of }], ...more };
}

/** What is drawn when every uniform number is p. */
function drawnAt(p: number, spec: ModuleSpec, counted: ModuleCounted): ReadonlyMap<string, number> {
  const values = new Map<string, number>();
  drawModule(
    spec,
    counted,
    () => p,
    (name, value) => values.set(name, value),
  );
  return values;
}

const LEVELS = [0.001, 0.025, 0.3, 0.5, 0.975, 0.999];

/* Expected values: quantiles of the posterior as jStat reckons them, an independent library. */
describe('what is drawn, level by level, is the quantile of what the counts leave open', () => {
  it.each(LEVELS)('rates of clocks: gamma, at %d', (p) => {
    for (const kind of ['running', 'clock'] as const) {
      const spec = stair([cause({ kind, time: EXPONENTIAL })]);
      const { stops } = drawModule(spec, counts(), () => p);
      const expected = jstat.gamma.inv(p, 3.5, 1 / 3300);
      expect(drawnAt(p, spec, counts()).get('stop:jam')! / expected).toBeCloseTo(1, 6);
      expect(stops[0]?.trigger).toMatchObject({ kind, time: { family: 'exponential' } });
      const prior = drawnAt(p, spec, counts({ prior: { stops: 2.1, over: 2400 } })).get('stop:jam')!;
      expect(prior / jstat.gamma.inv(p, 5.1, 1 / 5700)).toBeCloseTo(1, 6);
    }
  });

  it.each(LEVELS)('chances per cycle and ball: beta, at %d', (p) => {
    for (const kind of ['per_cycle', 'per_ball'] as const) {
      const spec = stair([cause({ kind, probability: 0.01 })]);
      const none = drawnAt(p, spec, counts({ stops: 2, over: 120 })).get('stop:jam')!;
      expect(none / jstat.beta.inv(p, 2.5, 118.5)).toBeCloseTo(1, 5);
      const prior = { stops: 1.5, over: 100 };
      const known = drawnAt(p, spec, counts({ stops: 2, over: 120, prior })).get('stop:jam')!;
      expect(known / jstat.beta.inv(p, 3.5, 216.5)).toBeCloseTo(1, 5);
    }
  });

  it.each(LEVELS)('catches and leaks: beta, at %d', (p) => {
    const counted = {
      module: 'stair',
      stops: [],
      caught: { of: 366, balls: 357 },
      leaked: { of: 357, balls: 1 },
    };
    const drawn = drawModule(stair([]), counted, () => p);
    expect(drawn.catch / jstat.beta.inv(p, 357.5, 9.5)).toBeCloseTo(1, 6);
    expect(drawn.leak / jstat.beta.inv(p, 1.5, 356.5)).toBeCloseTo(1, 5);
  });

  it.each(LEVELS)('the mean of exponential clear times: n over a gamma, at %d', (p) => {
    const time = { family: 'exponential', mean: 60 } as const;
    const drawn = drawTime(
      time,
      'clear',
      4,
      () => p,
      () => undefined,
    );
    // The larger the uniform number, the longer.
    expect(drawn).toEqual({
      family: 'exponential',
      mean: expect.closeTo(240 / jstat.gamma.inv(1 - p, 4, 1), 3) as number,
    });
  });

  it.each([0.1, 0.3, 0.5, 0.9])(
    'lognormal clear times: scaled inverse chi-square, then normal, at %d',
    (p) => {
      const time = { family: 'lognormal', mean: 60, cv: 0.6 } as const;
      const { mu, sigma } = lognormalParameters(time);
      const drawn = drawTime(
        time,
        'clear',
        12,
        (name) => (name === 'clear' ? 0.8 : p),
        () => undefined,
      );
      const after = lognormalParameters(drawn as typeof time);
      // Chi-square with 11 degrees of freedom is a gamma with shape 5.5 and scale 2.
      const spread = sigma * Math.sqrt(12 / jstat.gamma.inv(1 - p, 5.5, 2));
      expect(after.sigma).toBeCloseTo(spread, 6);
      expect(after.mu).toBeCloseTo(mu + (jstat.normal.inv(0.8, 0, 1) * spread) / Math.sqrt(12), 6);
    },
  );
});

describe('a mean of lognormal times', () => {
  it('has the interval of Student for the mean of the logarithms, whatever the spread', () => {
    // mu' - mu over sigma / sqrt(n - 1) is Student's t with n - 1 degrees of freedom (Gelman et al. 2013, 3.2, from memory).
    const time = { family: 'lognormal', mean: 60, cv: 0.6 } as const;
    const { mu, sigma } = lognormalParameters(time);
    const u = stream({ seed: 11, replication: 0, place: null, purpose: 'test' });
    const far = jstat.studentt.inv(0.975, 7);
    let outside = 0;
    const draws = 4000;
    for (let i = 0; i < draws; i++) {
      const drawn = drawTime(
        time,
        'x',
        8,
        () => u(),
        () => undefined,
      );
      const after = lognormalParameters(drawn as typeof time);
      if (Math.abs(after.mu - mu) / (sigma / Math.sqrt(7)) > far) outside++;
    }
    const z = (outside - 0.05 * draws) / Math.sqrt(draws * 0.05 * 0.95);
    expect(Math.abs(z)).toBeLessThan(3);
  });
});

describe('times of other families', () => {
  const at = (name: string): number => (name === 'x' ? 0.9 : 0.3);
  const draw = (time: Parameters<typeof drawTime>[0], n: number): unknown =>
    drawTime(time, 'x', n, at, () => undefined);
  const z = jstat.normal.inv(0.9, 0, 1);

  it('normal and gamma: the spread by chi-square, the mean beside it on the logarithm', () => {
    const cv = 0.2 * Math.sqrt(10 / jstat.gamma.inv(0.7, 4.5, 2));
    const mean = 8 * Math.exp((z * cv) / Math.sqrt(10));
    for (const family of ['normal', 'gamma'] as const)
      expect(draw({ family, mean: 8, cv: 0.2 }, 10)).toEqual({
        family,
        mean: expect.closeTo(mean, 6) as number,
        cv: expect.closeTo(cv, 8) as number,
      });
  });

  it('Erlang: all stages of all values make one gamma', () => {
    expect(draw({ family: 'erlang', mean: 30, stages: 3 }, 5)).toEqual({
      family: 'erlang',
      mean: expect.closeTo((30 * 15) / jstat.gamma.inv(0.1, 15, 1), 3) as number,
      stages: 3,
    });
  });

  it('uniform, triangular and measured times are stretched, by their own spread over the root of n', () => {
    // Uniform from 2 to 4: mean 3, variance 4 / 12.
    const by = Math.exp((z * Math.sqrt(1 / 3)) / 3 / Math.sqrt(10));
    expect(draw({ family: 'uniform', min: 2, max: 4 }, 10)).toEqual({
      family: 'uniform',
      min: expect.closeTo(2 * by, 9) as number,
      max: expect.closeTo(4 * by, 9) as number,
    });
    // Measured 2 and 4: mean 3, variance 1, divisor n.
    const measured = draw({ family: 'empirical', values: [2, 4] }, 2) as { values: number[] };
    expect(measured.values[1]).toBeCloseTo(4 * Math.exp(z / 3 / Math.SQRT2), 9);
  });

  it('a spread from two values is at most 2, however far out it is drawn', () => {
    const far = (name: string): number => (name === 'x' ? 0.5 : 0.9999);
    const drawn = drawTime({ family: 'lognormal', mean: 60, cv: 0.6 }, 'x', 2, far, () => undefined);
    expect(lognormalParameters(drawn as { mean: number; cv: number }).sigma).toBeCloseTo(2, 9);
  });
});

describe('Weibull clocks', () => {
  it('scatter as maximum likelihood does: 0.6079, 1.1087 and 0.2570 over n', () => {
    const n = 400;
    const u = stream({ seed: 12, replication: 0, place: null, purpose: 'test' });
    const drawn = Array.from({ length: 4000 }, () =>
      drawWeibull(
        { family: 'weibull', scale: 500, shape: 2 },
        'x',
        n,
        () => u(),
        () => undefined,
      ),
    ).map((one) => {
      if (!('shape' in one)) throw new Error('no shape');
      return { k: Math.log(one.shape / 2), s: Math.log(one.scale / 500) };
    });
    const variance = (values: number[]): number => n * momentsOf(values).variance;
    const [k, s, both] = [
      variance(drawn.map((one) => one.k)),
      variance(drawn.map((one) => one.s)),
      variance(drawn.map((one) => one.k + one.s)),
    ];
    // Johnson, Kotz & Balakrishnan 1994, ch. 21 (from memory), of the logarithms with shape 2; a variance of 4000 values is
    // known to 3 x sqrt(2 / 4000) = 6.7 %.
    expect(Math.abs(k / 0.6079 - 1)).toBeLessThan(0.067);
    expect(Math.abs(s / (1.1087 / 4) - 1)).toBeLessThan(0.067);
    const covariance = (both - k - s) / 2;
    expect(Math.abs(covariance / (0.257 / 2) - 1)).toBeLessThan(0.2);
  });

  it('take the shape at its word when one stop was seen, and the rate by its gamma when none was', () => {
    const time = { family: 'weibull', scale: 500, shape: 2 } as const;
    const spec = stair([cause({ kind: 'running', time })]);
    const none = drawModule(spec, counts({ stops: 0 }), () => 0.5).stops[0]?.trigger;
    // Shape kept, mean 3300 over the median of a gamma with shape 1/2.
    const mean = 3300 / jstat.gamma.inv(0.5, 0.5, 1);
    const scale = mean / 0.886226925452758; // Gamma(1.5) = sqrt(pi) / 2
    expect(none).toEqual({
      kind: 'running',
      time: { family: 'weibull', shape: 2, scale: expect.closeTo(scale, 3) as number },
    });
  });
});

describe('while the basket is crowded', () => {
  it('a cause strikes as often as was counted then, whatever is drawn for the rest', () => {
    const spec = stair([
      cause({ kind: 'per_ball', probability: 0.001 }, { crowded: { above: 0.7, times: 3 } }),
    ]);
    const counted = counts({ stops: 1, over: 4000, crowded: { stops: 2, over: 900 } });
    for (const p of [0.05, 0.5, 0.9]) {
      const [drawn] = drawModule(spec, counted, (name) => (name === 'crowded:jam' ? p : 0.4)).stops;
      const trigger = drawn?.trigger as StopTriggerSpec & { kind: 'per_ball' };
      const above = trigger.probability * (drawn?.crowded?.times ?? NaN);
      expect(above / jstat.beta.inv(p, 2.5, 898.5)).toBeCloseTo(1, 5);
      expect(drawn?.crowded?.above).toBe(0.7);
    }
  });
});

describe('what is taken at its word', () => {
  it('is all that was not counted, a constant time, and catching without a basket', () => {
    const spec = stair([cause({ kind: 'running', time: EXPONENTIAL })]);
    expect(drawModule(spec, { module: 'stair', cycles: 100, stops: [] }, () => 0.9)).toEqual(spec);
    const bare = stair([], { basket: holds(0) });
    const counted = { module: 'stair', caught: { of: 10, balls: 10 }, stops: [] };
    expect(drawModule(bare, counted, () => 0.9)).toEqual(bare);
  });

  it('is the spread when only one time was taken', () => {
    const time = { family: 'lognormal', mean: 60, cv: 0.6 } as const;
    const drawn = drawTime(
      time,
      'x',
      1,
      () => 0.975,
      () => undefined,
    );
    const { mu, sigma } = lognormalParameters(time);
    const after = lognormalParameters(drawn as typeof time);
    expect(after.sigma).toBeCloseTo(sigma, 9);
    expect(after.mu - mu).toBeCloseTo(1.959963984540054 * sigma, 9);
  });
});

describe('the draws of a loop', () => {
  const spec = loop(
    [
      stair([cause({ kind: 'running', time: EXPONENTIAL })]),
      module('other', { basket: holds(50), cycle: seconds(0.9) }),
    ],
    [10, 10],
  );
  const at = { seed: 3, draw: 5 };

  it('are the same wherever the module stands, and others for another draw', () => {
    const [first, second] = spec.modules;
    const turned = { ...spec, modules: [second as ModuleSpec, first as ModuleSpec] };
    const drawn = drawParameters(spec, [counts()], at);
    expect(drawParameters(turned, [counts()], at).modules[1]).toEqual(drawn.modules[0]);
    expect(drawn.modules[0]).not.toEqual(first);
    expect(drawn.modules[1]).toBe(second);
    expect(drawParameters(spec, [counts()], { ...at, draw: 6 }).modules[0]).not.toEqual(drawn.modules[0]);
    const trigger = drawn.modules[0]?.stops[0]?.trigger as StopTriggerSpec & { kind: 'running' };
    const rate = drawnOf(first as ModuleSpec, counts(), at).get('stop:jam') ?? NaN;
    expect(trigger.time).toEqual({ family: 'exponential', mean: expect.closeTo(1 / rate, 6) as number });
  });

  it('do not change when something else is counted besides', () => {
    const more = counts({ clears: 5 }, { cycles: 40, leaked: { of: 10, balls: 0 } });
    const [a, b] = [counts(), more].map(
      (one) => drawParameters(spec, [one], at).modules[0]?.stops[0]?.trigger,
    );
    expect(a).toEqual(b);
  });

  it('spread like the posterior: quantiles are exceeded as often as they should be', () => {
    const rates = Array.from(
      { length: 2000 },
      (_, draw) => drawnOf(spec.modules[0] as ModuleSpec, counts(), { seed: 3, draw }).get('stop:jam') ?? NaN,
    );
    for (const p of [0.025, 0.25, 0.5, 0.75, 0.975]) {
      const below = rates.filter((rate) => rate < jstat.gamma.inv(p, 3.5, 1 / 3300)).length;
      expect(Math.abs(below - 2000 * p) / Math.sqrt(2000 * p * (1 - p))).toBeLessThan(3);
    }
  });
});
