import { bisect } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  clopperPearson,
  type Difference,
  dudewiczDalalConstant,
  type Estimate,
  exponentialFit,
  kolmogorovCritical,
  kolmogorovLimit,
  kimNelsonEta,
  lagOneAutocorrelation,
  lognormalFit,
  meanInterval,
  momentsOf,
  mtbfInterval,
  pairedDifference,
  quantileRanks,
  rinottConstant,
  sampleSummary,
  valuesToBoundQuantile,
  weibullFit,
  welchDifference,
  wilsonInterval,
} from '../../../packages/sim-core/src/index.js';
import { studentTQuantile } from '../../../packages/sim-core/src/numerics/index.js';
import { section9 } from '../../reference/checks/section9.js';
import { nistUnivariate } from '../../reference/nistUnivariate.js';
import { listParam, param, publishedValue, quantitiesOf, setsParam } from '../../reference/published.js';

/** Relative difference at which a comparison fails. */
const DIGITS_9 = 1e-9;
/** Of integrals, published to six digits. */
const DIGITS_6 = 1e-6;

interface Found {
  readonly value: number | readonly number[];
  readonly limit: number;
}

const found = new Map<string, Map<string, Found>>();

/** Keeps what was computed for quantities of a case. */
function compute(
  id: string,
  values: Readonly<Record<string, Found['value'] | null>>,
  limit = DIGITS_9,
): void {
  const known = found.get(id) ?? new Map<string, Found>();
  for (const [name, value] of Object.entries(values)) known.set(name, { value: value ?? NaN, limit });
  found.set(id, known);
}

const low = ({ low: limit }: Pick<Estimate, 'low'>): number => limit ?? NaN;
const high = ({ high: limit }: Pick<Estimate, 'high'>): number => limit ?? NaN;

function student(): void {
  const data = momentsOf(listParam('STAT-T', 'data'));
  const interval = meanInterval(data, param('STAT-T', 'level'));
  compute('STAT-T', {
    mean: interval.mean,
    variance: data.variance,
    't quantile 0.95, 9 df': studentTQuantile(0.95, 9),
    'half width': (high(interval) - low(interval)) / 2,
    lower: interval.low,
    upper: interval.high,
    '95 % half width': high(meanInterval(data, 0.95)) - data.mean,
  });
}

function differences(): void {
  const a = listParam('STAT-PAIRED-WELCH', 'a');
  const b = listParam('STAT-PAIRED-WELCH', 'b');
  const paired = pairedDifference(a, b, 0.95);
  // Welch's line is a - b: from b to a.
  const welch = welchDifference(momentsOf(b), momentsOf(a), 0.95);
  compute('STAT-PAIRED-WELCH', {
    'paired mean difference': paired.difference.mean,
    'paired t': paired.t,
    'paired p (two-sided)': paired.p,
    'paired CI lower': paired.difference.low,
    'paired CI upper': paired.difference.high,
    'Welch t (a-b)': welch.t,
    'Welch df': welch.degrees,
    'Welch p': welch.p,
    'Welch CI lower': welch.difference.low,
    'Welch CI upper': welch.difference.high,
    'correlation a,b': paired.correlation,
  });
  const id = 'STAT-WELCH-h';
  const unequal: Difference = welchDifference(
    momentsOf(listParam(id, 'b')),
    momentsOf(listParam(id, 'a')),
    param(id, 'level'),
  );
  compute(id, {
    t: unequal.t,
    df: unequal.degrees,
    'p two-sided': unequal.p,
    'CI lower': unequal.difference.low,
    'CI upper': unequal.difference.high,
  });
}

function proportions(): void {
  for (const [successes = NaN, trials = NaN] of setsParam('STAT-PROP', 'cases')) {
    const wilson = wilsonInterval(successes, trials, 0.95);
    const exact = clopperPearson(successes, trials, 0.95);
    compute('STAT-PROP', {
      [`${successes}/${trials} Wilson lower`]: wilson.low,
      [`${successes}/${trials} Wilson upper`]: wilson.high,
      [`${successes}/${trials} Clopper-Pearson lower`]: exact.low,
      [`${successes}/${trials} Clopper-Pearson upper`]: exact.high,
    });
  }
  const id = 'STAT-PROP-h';
  const counts = [param(id, 'r'), param(id, 'n'), param(id, 'level')] as const;
  compute(id, {
    'Wilson lower': wilsonInterval(...counts).low,
    'Wilson upper': wilsonInterval(...counts).high,
    'CP lower': clopperPearson(...counts).low,
    'CP upper': clopperPearson(...counts).high,
  });
}

function quantiles(): void {
  const id = 'STAT-QUANTILE';
  for (const name of quantitiesOf(id)) {
    const [, n, share, confidence] = /^n=(\d+) p=([\d.]+) conf=([\d.]+): ranks/.exec(name) ?? [];
    if (n === undefined) continue;
    const { lower, upper, coverage } = quantileRanks(Number(n), Number(share), Number(confidence));
    const one = `n=${n} p=${share} conf=${confidence}`;
    compute(id, { [`${one}: ranks (l,u)`]: [lower, upper], [`${one}: exact coverage`]: coverage });
  }
  for (const [n, first, last] of [
    [10, 2, 9],
    [20, 6, 15],
  ] as const) {
    const { lower, upper, coverage } = quantileRanks(n, 0.5, 0.95);
    expect([lower, upper]).toEqual([first, last]);
    compute(id, { [`n=${n} median interval (x${first},x${last}): coverage`]: coverage });
  }
  compute(id, {
    'smallest n with max >= 95 % quantile at 95 % confidence': valuesToBoundQuantile(0.95, 0.95),
  });
}

function failures(): void {
  const id = 'STAT-MTBF';
  const watched = mtbfInterval(param(id, 'T'), param(id, 'r'), param(id, 'level'));
  // With as much time as failures the estimate is 1 and the limits are the factors.
  const factors = (r: number): number[] => {
    const interval = mtbfInterval(r, r, 0.9);
    return [interval.low, high(interval)];
  };
  const [lower = NaN, upper = NaN] = factors(2);
  compute(id, {
    'MTBF estimate': watched.mean,
    'lower 90 % two-sided (chi2 0.95, 6 df)': watched.low,
    'upper (chi2 0.05, 4 df)': watched.high,
    'lower factor': lower,
    'upper factor': upper,
    'zero-failure lower 95 % bound, T=1000 h': mtbfInterval(1000, 0, 0.95).low,
    'r=1 90 % factors (lower, upper)': factors(1),
    'r=5 90 % factors (lower, upper)': factors(5),
    'r=10 90 % factors (lower, upper)': factors(10),
  });
  const other = 'STAT-MTBF-h';
  const stops = mtbfInterval(param(other, 'T'), param(other, 'r'), param(other, 'level'));
  compute(other, { estimate: stops.mean, lower: stops.low, upper: stops.high });
}

function selection(): void {
  const id = 'STAT-RANKSEL';
  for (const name of quantitiesOf(id)) {
    const [k = NaN, n0 = NaN, chance = NaN] = [...name.matchAll(/(?:k|n0|P\*|alpha)=([\d.]+)/g)].map(
      ([, text]) => Number(text),
    );
    if (name.startsWith('Rinott')) compute(id, { [name]: rinottConstant(k, n0, chance) }, DIGITS_6);
    else if (name.startsWith('Dudewicz'))
      compute(id, { [name]: dudewiczDalalConstant(k, n0, chance) }, DIGITS_6);
    else if (name.startsWith('Kim-Nelson eta')) compute(id, { [name]: kimNelsonEta(k, n0, chance) });
    else if (name.startsWith('Kim-Nelson h^2'))
      compute(id, { [name]: 2 * kimNelsonEta(k, n0, chance) * (n0 - 1) });
  }
  const other = 'STAT-RANKSEL-h';
  const [k, n0, alpha] = [param(other, 'k'), param(other, 'n0'), param(other, 'alpha')];
  const eta = kimNelsonEta(k, n0, alpha);
  compute(other, { 'KN eta, k=7 n0=13 alpha=0.075': eta, 'KN h^2': 2 * eta * (n0 - 1) });
  compute(other, { 'Rinott h, k=7 n0=13 P*=0.925': rinottConstant(k, n0, param(other, 'P')) }, DIGITS_6);
}

function certified(): void {
  for (const [name, values] of Object.entries(nistUnivariate)) {
    const moments = momentsOf(values);
    const n = values.length;
    // The decimals of NumAcc3 and 4 cannot be stored exactly: the neighbouring numbers lie this far apart, and a sum over
    // deviations of 0.1 can be no better.
    const spacing = 2 ** (Math.floor(Math.log2(Math.abs(moments.mean))) - 52);
    const limit = Math.max(DIGITS_9, spacing / Math.sqrt(moments.variance));
    compute('STAT-STRD', { [`${name} (n=${n}) certified mean`]: moments.mean });
    const spread = {
      [`${name} certified sd`]: Math.sqrt(moments.variance),
      [`${name} certified lag-1 autocorrelation`]: lagOneAutocorrelation(values),
    };
    compute('STAT-STRD', spread, limit);
  }
}

function fitting(): void {
  const distances = quantitiesOf('STAT-KS').map((name) => {
    const [, n, alpha = ''] = /^(?:n=(\d+) alpha=|asymptotic )([\d.]+):/.exec(name) ?? [];
    const limit = (x: number): number => kolmogorovLimit(x) - (1 - Number(alpha));
    return [
      name,
      n === undefined ? bisect(limit, 0.3, 3, 100, 1e-14) : kolmogorovCritical(Number(n), Number(alpha)),
    ];
  });
  compute('STAT-KS', Object.fromEntries(distances) as Record<string, number>, DIGITS_9);
  const handbook = weibullFit({
    failures: listParam('STAT-MLE', 'nist_failures'),
    censored: listParam('STAT-MLE', 'nist_censored'),
  });
  const bearings = listParam('STAT-MLE', 'bearings');
  const corrected = bearings.map((value) => (value === 48.4 ? 48.48 : value));
  const values: Record<string, number> = {
    'NIST Weibull shape': handbook.shape,
    'NIST Weibull scale': handbook.scale,
    'NIST log-likelihood': handbook.logLikelihood,
    'bearings (48.40) lognormal log-lik': lognormalFit(bearings).logLikelihood,
    'bearings exponential MLE mean (48.48)': exponentialFit({ failures: corrected }).mean,
  };
  for (const [which, failures] of [
    ['48.40', bearings],
    ['48.48', corrected],
  ] as const) {
    const weibull = weibullFit({ failures });
    values[`bearings (${which}) Weibull shape`] = weibull.shape;
    values[`bearings (${which}) Weibull scale`] = weibull.scale;
    values[`bearings (${which}) Weibull log-lik`] = weibull.logLikelihood;
    const { mu, sigma } = lognormalFit(failures);
    values[`bearings (${which}) lognormal mu`] = mu;
    values[`bearings (${which}) lognormal sigma (divisor n)`] = sigma;
  }
  compute('STAT-MLE', values, DIGITS_9);
}

describe('published values of statistics', () => {
  for (const part of [student, differences, proportions, quantiles, failures, selection, certified, fitting])
    part();

  it('are computed one and all', () => {
    const arithmetic = section9.filter((group) => group.rows()[0]?.outcome.kind === 'arithmetic');
    for (const { caseId, quantities } of arithmetic)
      expect([...(found.get(caseId)?.keys() ?? [])].toSorted(), caseId).toEqual([...quantities].toSorted());
    expect(arithmetic.map(({ caseId }) => caseId).toSorted()).toEqual([...found.keys()].toSorted());
  });

  it.each([...found.keys()])('%s', (id) => {
    const faults = [...(found.get(id) ?? [])].flatMap(([name, { value, limit }]) => {
      const published = [publishedValue(id, name)].flat();
      const own = [value].flat();
      const agree =
        own.length === published.length &&
        own.every((x, i) => Math.abs(x - (published[i] ?? NaN)) <= limit * Math.abs(published[i] ?? NaN));
      return agree ? [] : [`${name}: ${own.join(', ')} instead of ${published.join(', ')}`];
    });
    expect(faults).toEqual([]);
  });

  it('NIST: the summary of a sample gives the certified mean and standard deviation too', () => {
    for (const name of ['Lew', 'Lottery', 'Mavro', 'Michelso', 'NumAcc1', 'NumAcc2']) {
      const values = nistUnivariate[name] ?? [];
      const { mean, sd } = sampleSummary(Float64Array.from(values));
      expect(
        mean / Number(publishedValue('STAT-STRD', `${name} (n=${values.length}) certified mean`)),
      ).toBeCloseTo(1, 12);
      expect(sd / Number(publishedValue('STAT-STRD', `${name} certified sd`))).toBeCloseTo(1, 9);
    }
  });
});
