import type { SessionSpec, ShowSpec } from './loopSpec.js';

const WHOLE_SHOW: readonly SessionSpec[] = [{ fromSeconds: 0, clockSeconds: 0 }];

/**
 * The sessions of a show with their ends, public seconds after the first opening.
 *
 * @example
 * sessionsOf({ seconds: 3600, warmUpSeconds: 0 }) // => [{ fromSeconds: 0, clockSeconds: 0, toSeconds: 3600 }]
 */
export function sessionsOf(show: ShowSpec): (SessionSpec & { readonly toSeconds: number })[] {
  const sessions = show.sessions ?? WHOLE_SHOW;
  return sessions.map((session, i) => ({
    ...session,
    toSeconds: sessions[i + 1]?.fromSeconds ?? show.seconds,
  }));
}

/**
 * The moment of public time at a clock time, seconds since the first opening: while closed, the next opening; after the
 * last session Infinity.
 *
 * @example
 * const show = { seconds: 200, warmUpSeconds: 0, sessions: [{ fromSeconds: 0, clockSeconds: 0 }, { fromSeconds: 100, clockSeconds: 1000 }] };
 * [publicSeconds(show, 50), publicSeconds(show, 500), publicSeconds(show, 1001), publicSeconds(show, 2000)] // => [50, 100, 101, Infinity]
 */
export function publicSeconds(show: ShowSpec, clock: number): number {
  for (const { fromSeconds, clockSeconds: opens, toSeconds } of sessionsOf(show)) {
    if (clock <= opens) return fromSeconds;
    if (clock <= opens + toSeconds - fromSeconds) return fromSeconds + clock - opens;
  }
  return Infinity;
}

/**
 * Full public hours that are measured, counted from the beginning of each session.
 *
 * @example
 * fullHours({ seconds: 9000, warmUpSeconds: 1800 }) // => 2
 */
export function fullHours(show: ShowSpec): number {
  return sessionsOf(show).reduce((hours, { fromSeconds, toSeconds }) => {
    const begin = Math.max(show.warmUpSeconds, fromSeconds);
    return hours + Math.max(0, Math.floor((toSeconds - begin) / 3600 + 1e-9));
  }, 0);
}
