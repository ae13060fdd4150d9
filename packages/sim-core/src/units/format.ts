/**
 * A number with a given count of significant digits, without needless zeros and without an exponent in the range that
 * people meet at a table.
 *
 * @param options.digits significant digits, 1 to 15 @default 3
 * @example
 * [formatNumber(0.98765), formatNumber(1234.5), formatNumber(0)] // => ['0.988', '1235', '0']
 */
export function formatNumber(value: number, options: { readonly digits?: number } = {}): string {
  const { digits = 3 } = options;
  if (!Number.isFinite(value)) return Number.isNaN(value) ? '-' : value > 0 ? 'unlimited' : '-unlimited';
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(value)));
  const decimals = Math.max(0, digits - 1 - magnitude);
  if (decimals > 8) return value.toExponential(digits - 1);
  const text = value.toFixed(decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/**
 * A time in the units people say: `45 s`, `4 min 20 s`, `2 h 5 min`.
 *
 * @param seconds any number of seconds
 * @param options.decimals of seconds below a minute @default 3 significant digits
 * @example
 * [formatSeconds(45.26), formatSeconds(260), formatSeconds(7500)] // => ['45.3 s', '4 min 20 s', '2 h 5 min']
 */
export function formatSeconds(seconds: number, options: { readonly decimals?: number } = {}): string {
  const { decimals } = options;
  if (!Number.isFinite(seconds)) return formatNumber(seconds);
  if (seconds < 0) return `-${formatSeconds(-seconds, options)}`;
  if (seconds < 59.95)
    return `${decimals === undefined ? formatNumber(seconds) : seconds.toFixed(decimals)} s`;
  if (seconds < 3599.5) return pair(Math.round(seconds), 60, 'min', 's');
  return pair(Math.round(seconds / 60), 60, 'h', 'min');
}

function pair(amount: number, size: number, large: string, small: string): string {
  const rest = amount % size;
  return rest === 0 ? `${amount / size} ${large}` : `${Math.floor(amount / size)} ${large} ${rest} ${small}`;
}

/**
 * A share as a percentage: `0.46 %`, `12.3 %`, `100 %`; never more digits than anyone would act on.
 *
 * @example
 * [formatShare(0.1234), formatShare(0.00456), formatShare(1)] // => ['12.3 %', '0.46 %', '100 %']
 */
export function formatShare(share: number): string {
  return `${formatNumber(100 * share, { digits: Math.abs(share) < 0.01 ? 2 : 3 })} %`;
}

/**
 * A time of day: seconds after midnight as `10:05`; a day later and more as `10:05 (+1 d)`.
 *
 * @example
 * formatClock(10 * 3600 + 300) // => '10:05'
 */
export function formatClock(secondsAfterMidnight: number): string {
  const minutes = Math.floor(secondsAfterMidnight / 60 + 1e-9);
  const days = Math.floor(minutes / 1440);
  const time = `${String(Math.floor(minutes / 60) % 24).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
  return days === 0 ? time : `${time} (+${days} d)`;
}
