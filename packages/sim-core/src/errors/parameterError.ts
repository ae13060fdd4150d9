/**
 * A number or option handed to a library function is outside what the function can use.
 *
 * The message names the function, the parameter, the value found and the rule, so that a caller can mend the
 * call without reading the source.
 *
 * @example
 * new ParameterError('exponential', 'mean', -2, 'a number above 0').message // => 'exponential: mean is -2 but must be a number above 0'
 */
export class ParameterError extends RangeError {
  override readonly name = 'ParameterError';
  readonly where: string;
  readonly parameter: string;
  readonly found: unknown;
  readonly rule: string;

  constructor(where: string, parameter: string, found: unknown, rule: string) {
    super(`${where}: ${parameter} is ${showValue(found)} but must be ${rule}`);
    this.where = where;
    this.parameter = parameter;
    this.found = found;
    this.rule = rule;
  }
}

/**
 * Throws a {@link ParameterError} unless `ok` holds. The text is built only when it is thrown.
 *
 * Write the wanted condition, not its opposite, so that NaN fails too: `requireParameter(x > 0, ...)`.
 *
 * @throws ParameterError when `ok` is false
 * @example
 * requireParameter(3 > 0, 'erlang', 'stages', 3, 'a whole number from 1') // => undefined
 */
export function requireParameter(
  ok: boolean,
  where: string,
  parameter: string,
  found: unknown,
  rule: string,
): asserts ok {
  if (!ok) throw new ParameterError(where, parameter, found, rule);
}

/**
 * A short, one-line picture of any value for an error message: text in quotes, long values cut.
 *
 * @example
 * showValue('3,6 s') // => '"3,6 s"'
 * @example
 * showValue([1, 2, 3]) // => '[1,2,3]'
 */
export function showValue(value: unknown): string {
  const text = plainText(value).replace(/[\p{Cc}\u2028\u2029]/gu, ' ');
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function plainText(value: unknown): string {
  if (typeof value === 'number' || typeof value === 'bigint' || typeof value === 'undefined')
    return String(value);
  if (typeof value === 'function' || typeof value === 'symbol') return typeof value;
  return JSON.stringify(typeof value === 'string' ? value.slice(0, 80) : value) ?? 'undefined';
}
