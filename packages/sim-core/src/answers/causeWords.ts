import type { CauseFit, ModuleFit, UnseenCause } from '../calibration/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';

/** How long a cause was watched, by what it counts. */
export function watchedFor({ clock, over }: Pick<CauseFit, 'clock' | 'over'>): string {
  return clock === 'running'
    ? `${formatSeconds(over)} of running`
    : count(over, clock === 'per_cycle' ? 'cycle' : 'ball');
}

/** The unit of a rate that is told. */
export function perWords({ clock }: CauseFit): string {
  return clock === 'running'
    ? 'per running hour'
    : clock === 'per_cycle'
      ? 'per 1000 cycles'
      : 'per 1000 balls';
}

/** A rate in the unit that it is told in. */
export function scaled({ clock }: CauseFit, rate: number | null): string {
  return rate === null ? '' : formatNumber((clock === 'running' ? 3600 : 1000) * rate);
}

/** What a log without a stop of a cause says of the figure of the scenario. */
export function unseenNotes({ causes }: ModuleFit, unseen: readonly UnseenCause[]): string[] {
  return unseen.flatMap(({ cause, rate, chanceOfNone, heard, stays }) => {
    const seen = causes.find((one) => one.cause === cause);
    if (seen === undefined) return [];
    const none = `${cause}: none was seen in ${watchedFor(seen)}. By the figure of the scenario (${scaled(seen, rate)} ${perWords(seen)})`;
    const chance = `${formatShare(Math.round(100 * chanceOfNone) / 100)} of such logs`;
    if (stays)
      return [
        `${none} ${chance} would show none: the log is too short to say anything against that figure, which stays.`,
      ];
    if (!heard)
      return [
        `${none} fewer than 1 in 20 such logs would show none, so the log speaks against it: half a stop over all that was watched takes its place.`,
      ];
    return [`${none} ${chance} would show none; what the other copies of its design showed takes its place.`];
  });
}

function count(number: number, one: string): string {
  return `${number} ${number === 1 ? one : `${one}s`}`;
}
