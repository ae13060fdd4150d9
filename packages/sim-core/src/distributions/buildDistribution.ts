import { constant } from './constant.js';
import type { Distribution } from './distribution.js';
import type { DistributionSpec } from './distributionSpec.js';
import { empirical } from './empirical.js';
import { erlang } from './erlang.js';
import { exponential } from './exponential.js';
import { gamma } from './gamma.js';
import { lognormal } from './lognormal.js';
import { normalCutAtZero } from './normalCutAtZero.js';
import { triangular } from './triangular.js';
import { uniformDistribution } from './uniformDistribution.js';
import { weibull } from './weibull.js';

/**
 * Builds a distribution from its plain data.
 *
 * @throws ParameterError when a parameter is out of range
 * @example
 * buildDistribution({ family: 'erlang', mean: 3, stages: 9 }).variance // => 1
 */
export function buildDistribution(spec: DistributionSpec): Distribution {
  switch (spec.family) {
    case 'constant':
      return constant(spec);
    case 'uniform':
      return uniformDistribution(spec);
    case 'triangular':
      return triangular(spec);
    case 'normal':
      return normalCutAtZero(spec);
    case 'lognormal':
      return lognormal(spec);
    case 'gamma':
      return gamma(spec);
    case 'erlang':
      return erlang(spec);
    case 'exponential':
      return exponential(spec);
    case 'weibull':
      return weibull(spec);
    case 'empirical':
      return empirical(spec);
  }
}
