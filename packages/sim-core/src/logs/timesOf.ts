import type { WrittenTime } from './readTime.js';

/**
 * How the times of a file are meant: since the start, when most are seconds, when most would be more hours than a day
 * has, or when the first is below 1:00.
 */
export function timesOf(written: readonly WrittenTime[]): 'clock' | 'elapsed' {
  const colons = written.filter((time) => time.kind === 'colons');
  if (2 * colons.length < written.length) return 'elapsed';
  const [first] = colons;
  if (first === undefined) return 'clock';
  if (first.first === 0 && first.day === undefined) return 'elapsed';
  const beyond = colons.filter(({ first: hours, seconds }) => hours > 24 && seconds === undefined);
  return 2 * beyond.length > colons.length ? 'elapsed' : 'clock';
}
