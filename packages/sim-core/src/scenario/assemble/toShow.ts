import type { ShowSpec } from '../../model/spec/index.js';
import { formatSeconds } from '../../units/index.js';
import type { Moment } from '../fields/index.js';
import type { ShowRead } from '../form/scenarioForm.js';

/** What is known of the show's times, for reading moments. */
export interface ShowTimes {
  readonly opens?: number;
  readonly lasts?: number;
}

/** Makes the show; undefined when its length is missing (reported). */
export function toShow(read: ShowRead | undefined): ShowSpec | undefined {
  if (read?.lasts === undefined) return undefined;
  const warmUp = read.warm_up ?? 0;
  if (warmUp >= read.lasts) {
    return read.found.report(
      'contradiction',
      `the warm-up (${formatSeconds(warmUp)}) is not shorter than the show (${formatSeconds(read.lasts)})`,
    );
  }
  return {
    seconds: read.lasts,
    warmUpSeconds: warmUp,
    ...(read.opens !== undefined && { opensAtSeconds: read.opens }),
  };
}

/** A moment as seconds after the opening; reports one that is not within the show. */
export function secondsAfterOpening(moment: Moment, show: ShowTimes): number | undefined {
  const { opens, lasts } = show;
  if (moment.kind === 'clock' && opens === undefined) {
    return moment.found.report(
      'contradiction',
      'a time of day needs the opening time',
      'Write opens: 10:00 in the show section, or a time after the opening such as 90 min.',
    );
  }
  const seconds = moment.kind === 'clock' ? (moment.seconds - (opens ?? 0) + 86400) % 86400 : moment.seconds;
  if (lasts !== undefined && seconds > lasts) {
    return moment.found.report(
      'out_of_range',
      `this is ${formatSeconds(seconds)} after the opening, but the show lasts ${formatSeconds(lasts)}`,
    );
  }
  return seconds;
}
