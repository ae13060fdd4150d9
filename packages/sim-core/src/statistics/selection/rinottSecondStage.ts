import { requireParameter } from '../../errors/index.js';
import { requireCount } from '../requireNumbers.js';

/** What the first stage of a two-stage selection has shown. */
export interface FirstStage {
  /** Replications of each system so far, from 2. */
  readonly n0: number;
  /** As {@link rinottConstant} gives it. */
  readonly h: number;
  /** Differences below this do not matter, in the unit of the values, above 0. */
  readonly delta: number;
  /** Standard deviation of each system's values in the first stage, in the same unit. */
  readonly sds: readonly number[];
}

/**
 * How many replications each system needs in all, so that the one with the best mean is the best, or within delta of it,
 * with the chance that the constant was made for: N_i = max(n0, ceil((h s_i / delta)^2)) (Rinott 1978, Communications in
 * Statistics A7, 799-811). The systems must have random numbers of their own.
 *
 * @returns one number for each system, first stage included
 * @throws ParameterError when a number is out of range
 * @example
 * rinottSecondStage({ n0: 20, h: 3, delta: 1, sds: [1, 2] }) // => [20, 36]
 */
export function rinottSecondStage({ n0, h, delta, sds }: FirstStage): number[] {
  requireCount(n0, 2, 'rinottSecondStage', 'n0');
  requireParameter(h > 0 && h < Infinity, 'rinottSecondStage', 'h', h, 'a finite number above 0');
  requireParameter(
    delta > 0 && delta < Infinity,
    'rinottSecondStage',
    'delta',
    delta,
    'a finite number above 0',
  );
  return sds.map((sd, i) => {
    requireParameter(
      sd >= 0 && sd < Infinity,
      'rinottSecondStage',
      `sds[${i}]`,
      sd,
      'a finite number from 0',
    );
    return Math.max(n0, Math.ceil(((h * sd) / delta) ** 2));
  });
}
