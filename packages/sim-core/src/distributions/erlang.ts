import { requireParameter } from '../errors/index.js';
import type { Distribution } from './distribution.js';
import { gammaFamily } from './gamma.js';

/**
 * The sum of `stages` exponential times of equal mean: between exponential (1 stage) and constant (many).
 *
 * variance = mean^2 / stages.
 *
 * @param options.mean above 0
 * @param options.stages whole number from 1 to 1000
 * @throws ParameterError when a parameter is out of range
 * @example
 * erlang({ mean: 3, stages: 9 }).variance // => 1
 */
export function erlang(options: { readonly mean: number; readonly stages: number }): Distribution {
  const { mean, stages } = options;
  requireParameter(
    Number.isInteger(stages) && stages >= 1 && stages <= 1000,
    'erlang',
    'stages',
    stages,
    'a whole number from 1 to 1000',
  );
  return gammaFamily('erlang', mean, stages);
}
