import { buildDistribution, type DistributionSpec } from '../distributions/index.js';
import type { StopShow } from '../experiments/index.js';
import { leversFor } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { clopperPearson, type Estimate, waitingQuantile } from '../statistics/index.js';

/** Something that hands can do when a module stands still, and by when they must begin. */
export interface StopAction {
  /** Taking the module out, or setting a lever that sends balls back before they come to it. */
  readonly kind: 'pull' | 'lever';
  /** What goes in, best first, or the module of the lever. */
  readonly what: readonly string[];
  /** How long hands are busy with it, the way there included; the share of `sure` of all times when that varies. */
  readonly takes_s: number;
  /** Share of shows in which balls fall from a basket that floods, if nobody does anything. */
  readonly falls: Estimate;
  /** The same if it is begun at the moment at which the module stops. */
  readonly falls_at_once: Estimate;
  /**
   * Latest moment to begin, seconds after the stop, so that with the chance `sure` nothing falls; null when nothing
   * falls so often anyway. Below 0: too late from the beginning.
   */
  readonly latest: Estimate | null;
  /** Lever: how long the basket of its own module then lasts, counted from the stop; the 5 % and the middle. */
  readonly lasts?: { readonly p05: Estimate; readonly p50: Estimate };
}

export interface ActionOptions {
  readonly sure: number;
  readonly confidence: number;
  /** How long taking the module out takes, where the file does not say. */
  readonly swapSeconds?: number;
}

/**
 * By when hands must act, reckoned from shows in which nobody does.
 *
 * What happens until an action is done is the same as without it, so that nothing falls exactly if it is done before the
 * first ball would fall; a lever must stand before the ball is let go that would not find room any more, since what is on
 * the way still comes. Whether hands are free is not looked at.
 *
 * @param firstFall when the first ball fell while it stood still, show by show; Infinity if none did
 */
export function stopActions(
  spec: LoopSpec,
  place: number,
  shows: readonly StopShow[],
  firstFall: readonly number[],
  { sure, confidence, swapSeconds }: ActionOptions,
): StopAction[] {
  const { modules, spares = [] } = spec;
  const { pull } = modules[place] ?? {};
  const time = (spread: DistributionSpec): number => buildDistribution(spread).quantile(sure);
  const share = (times: readonly number[], upTo: number): Estimate =>
    shareOf(times.filter((at) => at < upTo).length, times.length, confidence);
  const action = (times: readonly number[], takes: number): Omit<StopAction, 'kind' | 'what'> => {
    const falls = share(times, Infinity);
    const needed = (falls.mean ?? 0) > 1 - sure;
    return {
      takes_s: takes,
      falls,
      falls_at_once: share(times, takes),
      latest: needed
        ? waitingQuantile(
            times.map((at) => at - takes),
            1 - sure,
            confidence,
          )
        : null,
    };
  };
  const goesIn = [
    ...(pull?.spares ?? []).flatMap((k) => spares[k]?.id ?? []),
    ...(pull?.chute || !pull ? ['a plain chute'] : []),
  ];
  const swap = swapSeconds ?? (pull && time(pull.swap));
  return [
    ...(swap === undefined ? [] : [{ kind: 'pull' as const, what: goesIn, ...action(firstFall, swap) }]),
    ...leversFor(spec, place).map((m, i): StopAction => {
      const tooLate = shows.map(({ leverTooLate }) => leverTooLate[i] ?? Infinity);
      const floods = shows.map(({ leverFloods }) => leverFloods[i] ?? Infinity);
      const lever = modules[m]?.lever;
      return {
        kind: 'lever',
        what: [modules[m]?.id ?? ''],
        ...action(tooLate, lever ? time(lever.takes) : 0),
        lasts: {
          p05: waitingQuantile(floods, 0.05, confidence),
          p50: waitingQuantile(floods, 0.5, confidence),
        },
      };
    }),
  ];
}

/** A share of shows with exact limits. */
export function shareOf(count: number, shows: number, confidence: number): Estimate {
  return {
    mean: count / shows,
    ...clopperPearson(count, shows, confidence),
    confidence,
    replications: shows,
  };
}
