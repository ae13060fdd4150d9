import { requireParameter } from '../errors/index.js';

/**
 * Throws unless a confidence, or another chance that may be neither 0 nor 1, is in range.
 *
 * @throws ParameterError when it is not above 0 and below 1
 * @example
 * requireChance(0.95, 'meanInterval', 'confidence') // => undefined
 */
export function requireChance(value: number, where: string, parameter: string): void {
  requireParameter(value > 0 && value < 1, where, parameter, value, 'above 0 and below 1');
}

/**
 * Throws unless a count is a whole number from `least`.
 *
 * @throws ParameterError when it is not
 * @example
 * requireCount(3, 2, 'kimNelson', 'k') // => undefined
 */
export function requireCount(value: number, least: number, where: string, parameter: string): void {
  requireParameter(
    Number.isSafeInteger(value) && value >= least,
    where,
    parameter,
    value,
    `a whole number from ${least}`,
  );
}
