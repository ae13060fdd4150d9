import { requireParameter } from '../../errors/index.js';
import { type Distribution, buildDistribution, type DistributionSpec } from '../../distributions/index.js';
import { censoredLognormalFit } from './censoredLognormalFit.js';
import { exponentialFit } from './exponentialFit.js';
import { gammaFit } from './gammaFit.js';
import type { Fit, Lifetimes } from './lifetimes.js';
import { lognormalFit } from './lognormalFit.js';
import { normalFit } from './normalFit.js';
import { weibullFit } from './weibullFit.js';

/** The families that can be fitted. */
export type FittedFamily = 'normal' | 'lognormal' | 'gamma' | 'weibull' | 'exponential';

/** One family fitted to values, as a scenario writes it. */
export interface FamilyFit extends Fit {
  readonly family: FittedFamily;
  readonly spec: DistributionSpec;
}

/**
 * One family fitted by maximum likelihood, in the parameters of a scenario file (mean and cv, or scale and shape).
 *
 * Censored times are used by the exponential, lognormal and Weibull families; the others take none.
 *
 * @throws ParameterError when there are too few values, one is not positive, all are the same, or times are censored and
 *   the family cannot use them
 * @example
 * fitFamily('exponential', { failures: [2, 4], censored: [6] }).spec // => { family: 'exponential', mean: 6 }
 */
export function fitFamily(family: FittedFamily, lifetimes: Lifetimes): FamilyFit {
  const { failures, censored = [] } = lifetimes;
  requireParameter(
    censored.length === 0 || (family !== 'normal' && family !== 'gamma'),
    'fitFamily',
    'censored',
    censored.length,
    `none for the ${family} family`,
  );
  switch (family) {
    case 'normal': {
      const { mean, sd, logLikelihood, aic } = normalFit(failures);
      return { family, spec: { family, mean, cv: sd / mean }, logLikelihood, aic };
    }
    case 'lognormal': {
      const fit = censored.length > 0 ? censoredLognormalFit(lifetimes) : lognormalFit(failures);
      const { mu, sigma, logLikelihood, aic } = fit;
      const spec = { family, mean: Math.exp(mu + sigma ** 2 / 2), cv: Math.sqrt(Math.expm1(sigma ** 2)) };
      return { family, spec, logLikelihood, aic };
    }
    case 'gamma': {
      const { shape, scale, logLikelihood, aic } = gammaFit(failures);
      return { family, spec: { family, mean: shape * scale, cv: 1 / Math.sqrt(shape) }, logLikelihood, aic };
    }
    case 'weibull': {
      const { shape, scale, logLikelihood, aic } = weibullFit(lifetimes);
      return { family, spec: { family, scale, shape }, logLikelihood, aic };
    }
    case 'exponential': {
      const { mean, logLikelihood, aic } = exponentialFit(lifetimes);
      return { family, spec: { family, mean }, logLikelihood, aic };
    }
  }
}

/**
 * The distribution that a fit stands for.
 *
 * @throws ParameterError when a fitted parameter is beyond what the family can be drawn with
 * @example
 * fittedDistribution(fitFamily('exponential', { failures: [2, 4] })).mean // => 3
 */
export function fittedDistribution(fit: FamilyFit): Distribution {
  return buildDistribution(fit.spec);
}
