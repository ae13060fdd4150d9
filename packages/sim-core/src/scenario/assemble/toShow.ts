import type { ShowSpec } from '../../model/spec/index.js';
import { formatSeconds } from '../../units/index.js';
import type { ShowRead } from '../form/showForm.js';
import { type OpenTime, openTimes, publicUntil, sessionsOf } from './publicTime.js';

/** What is known of the show's times, for reading moments. */
export interface ShowTimes {
  /** Time of day of the first opening. */
  readonly opens?: number;
  /** Public seconds in all. */
  readonly lasts?: number;
  /** Number of days, when they are given one by one. */
  readonly days?: number;
  /** When the public is there on those days; absent when they cannot be used (reported). */
  readonly open?: readonly OpenTime[];
}

/** What the show section says of times, as far as it can be used. */
export function toTimes(read: ShowRead | undefined): ShowTimes {
  if (read?.days === undefined) {
    return {
      ...(read?.opens !== undefined && { opens: read.opens }),
      ...(read?.lasts !== undefined && { lasts: read.lasts }),
    };
  }
  const open = openTimes(read.days);
  if (open === undefined) return { days: read.days.length };
  const [first] = open;
  return {
    ...(first && { opens: first.from }),
    lasts: publicUntil(open, Infinity),
    days: read.days.length,
    open,
  };
}

/** Makes the show; undefined when its times are missing or make no sense (reported). */
export function toShow(read: ShowRead | undefined, { opens, lasts, open }: ShowTimes): ShowSpec | undefined {
  if (read === undefined || lasts === undefined) return undefined;
  const warmUp = read.warm_up ?? 0;
  if (warmUp >= lasts) {
    return read.found.report(
      'contradiction',
      `the warm-up (${formatSeconds(warmUp)}) is not shorter than the show (${formatSeconds(lasts)})`,
    );
  }
  return {
    seconds: lasts,
    warmUpSeconds: warmUp,
    ...(opens !== undefined && { opensAtSeconds: opens }),
    ...(open && open.length > 1 && { sessions: sessionsOf(open) }),
  };
}
