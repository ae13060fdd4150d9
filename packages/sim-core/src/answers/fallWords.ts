import type { Estimate } from '../statistics/index.js';
import type { WhenItStops } from '../studies/index.js';
import { shareWords, timeWords } from './stopWords.js';

/** Balls that fall because of a stop, rounded so that the parts as written come to the sum as written. */
export interface FallWords {
  readonly whileStopped: string;
  readonly after: string;
  readonly all: string;
  /** To as many decimals. */
  readonly decimals: number;
}

/** Most decimals of balls. */
const MOST_DECIMALS = 3;

/**
 * The balls that fall because of a stop, in figures that add up: the later ones are the sum as written less what is written
 * for the time of the stop.
 *
 * @example
 * const ball = (mean) => ({ mean, low: null, high: null, confidence: 0.95, replications: 1 });
 * fallFigures({ while_stopped: ball(99.4), after: ball(-42.6), all: ball(56.8) }) // => { whileStopped: '99', after: '-42', all: '57', decimals: 0 }
 */
export function fallFigures({ while_stopped: whileStopped, all }: WhenItStops['spilled']): FallWords {
  const [during, sum] = [whileStopped.mean ?? 0, all.mean ?? 0];
  const digit = (value: number): number => (value === 0 ? 0 : -Math.floor(Math.log10(Math.abs(value))));
  const half = all.low === null || all.high === null ? 0 : (all.high - all.low) / 2;
  // Down to the first digit of half the interval, and never so few that what falls is written as nothing.
  const wanted = Math.max(digit(half), Math.abs(sum) < 1 ? 0 : digit(sum) + 1, digit(during));
  const scale = 10 ** Math.min(MOST_DECIMALS, Math.max(0, wanted));
  const [first, last] = [Math.round(scale * during), Math.round(scale * sum)];
  const decimals = [first, last].every((balls) => balls % scale === 0) ? 0 : Math.log10(scale);
  const words = (balls: number): string => (balls / scale).toFixed(decimals);
  return { whileStopped: words(first), after: words(last - first), all: words(last), decimals };
}

/** How many balls fall because of the stop: while it stands still, afterwards, and in all. */
export function fallSentence({ spilled, replications }: WhenItStops): string {
  const { whileStopped, after, all, decimals } = fallFigures(spilled);
  const shows = `${replications} pairs of shows`;
  const interval = `95 % interval ${fallInterval(spilled.all, decimals)}, ${shows}`;
  if (Number(whileStopped) === 0 && Number(after) === 0)
    return `No more balls fall than without the stop (${shows}).`;
  const sum =
    Number(all) < 0
      ? `${all.slice(1)} fewer in all than without the stop`
      : Number(all) === 0
        ? 'as many in all as without the stop'
        : `${all} in all because of it`;
  const later =
    Number(after) < 0
      ? `${after.slice(1)} fewer later${(spilled.after.high ?? 0) < 0 ? ', because fewer balls go round' : ''}`
      : Number(after) === 0
        ? 'no more later'
        : `${after} more later`;
  return `${whileStopped} ${whileStopped === '1' ? 'ball falls' : 'balls fall'} while it stands still and ${later}: ${sum} on average (${interval}).`;
}

/** The interval of balls that fall, with so many decimals. */
export function fallInterval({ low, high }: Estimate, decimals: number): string {
  if (low === null || high === null) return 'no interval';
  // What is rounded to nothing has no sign.
  const words = (balls: number): string => (Number(balls.toFixed(decimals)) || 0).toFixed(decimals);
  return `${words(low)} to ${words(high)} balls`;
}

/** That the rule of the file took the module out, and how soon; nothing where it did not. */
export function pullSentence({ module, pulled, pulled_after: after }: WhenItStops): string {
  if (after === null) return '';
  const { p50 } = after;
  const when =
    p50.mean === null
      ? ''
      : `; in half of them something else runs in its place after ${timeWords(p50.mean)}, which ends the stop`;
  return `In ${shareWords(pulled)} of the shows the rule of the file pulls ${module} while it is stopped${when}.`;
}
