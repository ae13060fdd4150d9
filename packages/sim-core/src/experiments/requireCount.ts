import { requireParameter } from '../errors/index.js';

/** @throws ParameterError unless the value is a whole number from 1 */
export function requireCount(where: string, parameter: string, value: number): void {
  requireParameter(
    Number.isSafeInteger(value) && value >= 1,
    where,
    parameter,
    value,
    'a whole number from 1',
  );
}
