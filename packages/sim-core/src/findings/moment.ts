import type { RunResult } from '../experiments/index.js';
import { clockLabel, type ShowClock } from '../units/index.js';
import { type Kind, KINDS } from './phrase.js';

/**
 * When the show of a result is open, as the clock on the wall needs to know it.
 *
 * @example
 * showClockOf(exampleResult) // => { sessions: [{ fromSeconds: 0, clockSeconds: 0 }] }
 */
export function showClockOf({ scenario: { opens_s: opens, sessions } }: RunResult): ShowClock {
  return {
    ...(opens !== null && { opensAtSeconds: opens }),
    sessions: sessions.map(({ from_s: from, clock_s: clock }) => ({
      fromSeconds: from,
      clockSeconds: clock,
    })),
  };
}

/**
 * The kind of a figure that is a moment of the show: a time since the opening, or in a show of several sessions, where
 * such a time is hard to place, a label of the clock.
 *
 * @example
 * momentKind(exampleResult) // => 'time'
 */
export function momentKind(result: RunResult): Kind {
  const { opens_s: opens, sessions } = result.scenario;
  return opens === null || sessions.length === 1 ? KINDS.time : { clock: showClockOf(result) };
}

/**
 * A moment of the show in a sentence: "at 11:42", "at day 2 11:42", "1 h 42 min after the opening".
 *
 * @param publicSeconds public seconds after the first opening
 * @example
 * atMoment(exampleResult, 6120) // => '1 h 42 min after the opening'
 */
export function atMoment(result: RunResult, publicSeconds: number): string {
  const label = clockLabel(showClockOf(result), publicSeconds);
  return result.scenario.opens_s === null ? label : `at ${label}`;
}
