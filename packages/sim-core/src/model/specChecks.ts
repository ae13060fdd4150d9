import { buildDistribution, type DistributionSpec } from '../distributions/index.js';
import { requireParameter } from '../errors/index.js';

export function isWhole(value: number, least: number): boolean {
  return Number.isSafeInteger(value) && value >= least;
}

export function checkIndex(name: string, index: number, modules: number): void {
  requireParameter(
    isWhole(index, 0) && index < modules,
    'simulate',
    name,
    index,
    `a module's index, 0 to ${modules - 1}`,
  );
}

export function checkShare(name: string, share: number, aboveZero: boolean): void {
  const ok = share <= 1 && (aboveZero ? share > 0 : share >= 0);
  requireParameter(ok, 'simulate', name, share, aboveZero ? 'above 0 and at most 1' : 'from 0 to 1');
}

/** Builds the distribution, which checks its parameters; a mean of 0 where time must pass would stop the clock. */
export function checkTime(name: string, spec: DistributionSpec, mustPass: boolean): void {
  const { mean } = buildDistribution(spec);
  requireParameter(!mustPass || mean > 0, 'simulate', name, mean, 'a time with a mean above 0');
}
