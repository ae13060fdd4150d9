import type { DistributionSpec } from './distributionSpec.js';

/**
 * The distribution of a time that is multiplied; its coefficient of variation stays.
 *
 * @param by above 0
 * @example
 * stretched({ family: 'uniform', min: 1, max: 3 }, 2) // => { family: 'uniform', min: 2, max: 6 }
 */
export function stretched(spec: DistributionSpec, by: number): DistributionSpec {
  switch (spec.family) {
    case 'constant':
      return { ...spec, value: by * spec.value };
    case 'uniform':
      return { ...spec, min: by * spec.min, max: by * spec.max };
    case 'triangular':
      return { ...spec, min: by * spec.min, mode: by * spec.mode, max: by * spec.max };
    case 'weibull':
      return 'scale' in spec ? { ...spec, scale: by * spec.scale } : { ...spec, mean: by * spec.mean };
    case 'empirical':
      return { ...spec, values: spec.values.map((value) => by * value) };
    default:
      return { ...spec, mean: by * spec.mean };
  }
}
