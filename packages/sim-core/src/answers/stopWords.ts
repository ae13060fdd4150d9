import { listing } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import type { BasketFlood, StopAction, TimesOver, WhenItStops } from '../studies/index.js';
import { formatSeconds, formatShare } from '../units/index.js';

/** A time in whole seconds. */
export function timeWords(seconds: number): string {
  return formatSeconds(Math.round(seconds), { decimals: 0 });
}

/** A quantile of times; one that lies beyond what was watched is said to. */
export function whenWords({ mean }: Estimate, watched: number): string {
  return mean === null ? `later than ${timeWords(watched)}` : timeWords(mean);
}

/** The limits of a time that may lack one of them. */
export function limitsOfTime({ low, high }: Estimate): string {
  if (low !== null && high !== null) return `${timeWords(low)} to ${timeWords(high)}`;
  if (high !== null) return `up to ${timeWords(high)}`;
  return low === null ? 'no interval' : `${timeWords(low)} or later`;
}

/** "95 % interval 1 min to 2 min", or that there is none. */
export function intervalOfTime(time: Estimate): string {
  const { low, high } = time;
  return low === null && high === null ? limitsOfTime(time) : `95 % interval ${limitsOfTime(time)}`;
}

/** The limits of a latest moment: one before the stop is none. */
export function limitsOfLatest(latest: Estimate): string {
  return limitsOfTime({ ...latest, low: latest.low === null || latest.low < 0 ? null : latest.low });
}

/** A share in whole per cent, but what was seen is never 0 and what was missed never 100. */
export function shareWords({ mean }: Estimate): string {
  const share = mean ?? 0;
  return share > 0 && share < 0.005
    ? 'less than 1 %'
    : share < 1 && share > 0.995
      ? 'more than 99 %'
      : `${(100 * share).toFixed(0)} %`;
}

/** How often, with limits. */
export function shareWithLimits(share: Estimate): string {
  const { low, high } = share;
  if (low === null || high === null) return shareWords(share);
  return `${shareWords(share)} of the shows (95 % interval ${(100 * low).toFixed(0)} to ${(100 * high).toFixed(0)} %)`;
}

/** The middle of times, and the soonest of twenty. */
export function halfAndTwentieth({ p05, p50 }: TimesOver, watched: number): string {
  if (p50.mean === null) return `after ${whenWords(p05, watched)} in one of twenty shows`;
  return `after ${timeWords(p50.mean)} in half of the shows (${intervalOfTime(p50)}; after ${whenWords(p05, watched)} in one of twenty)`;
}

/** What hands do. */
export function deedWords({ kind, what, takes_s: takes }: StopAction): string {
  const work = `${timeWords(takes)} of work`;
  return kind === 'lever'
    ? `set the lever of ${what.join(' and ')} (${work})`
    : `take it out and put in ${listing(what).replace(/ and /, ' or ')} (${work})`;
}

function lastsWords({ p05, p50 }: NonNullable<StopAction['lasts']>, watched: number): string {
  if (p05.mean === null) return `it has room for what comes in ${timeWords(watched)}, and more`;
  const half = p50.mean === null ? `more than ${timeWords(watched)}` : timeWords(p50.mean);
  return `it lasts ${half} in half of the shows, ${timeWords(p05.mean)} in one of twenty`;
}

/** So many balls: whole ones from ten on. */
export function ballWords(balls: number): string {
  const number = Math.abs(balls) < 10 ? balls.toFixed(1).replace(/\.0$/, '') : balls.toFixed(0);
  return `${number} ${number === '1' ? 'ball' : 'balls'}`;
}

/** By when, and what if not. */
export function actionSentence(action: StopAction, { sure, watched_s: watched }: WhenItStops): string {
  const { latest, falls, falls_at_once: atOnce, lasts, kind, what } = action;
  const deed = deedWords(action);
  if (latest === null)
    return `There is no hurry to ${deed}: if nobody does anything, ${kind === 'lever' ? 'it would be too late' : 'balls fall meanwhile'} in ${shareWithLimits(falls)}.`;
  const at = latest.mean ?? Infinity;
  const then =
    lasts === undefined
      ? ''
      : ` From then on the basket of ${what.join(' and ')} fills instead; ${lastsWords(lasts, watched)}.`;
  if (at < 0)
    return `To ${deed} comes too late for that even if it is begun at once: in ${shareWithLimits(atOnce)} balls fall before it helps.${then}`;
  return `To be ${formatShare(sure)} sure that nothing falls meanwhile, begin within ${timeWords(Math.floor(at))} to ${deed}; 95 % interval ${limitsOfLatest(latest)}.${then}`;
}

/** More often than luck alone would have it, one way or the other. */
export function floodsMore({ floods, other_way: other }: BasketFlood): boolean {
  return (floods.low ?? 0) > (other.high ?? 1);
}
