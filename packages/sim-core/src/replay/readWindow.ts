import { InputError, type Problem } from '../errors/index.js';
import { publicSeconds, type ShowSpec } from '../model/spec/index.js';
import { clockLabel, formatSeconds, parseClock, parseQuantity } from '../units/index.js';
import type { TimeWindow } from './timeWindow.js';

const DAY = 86400;
const RULE =
  'a time of day such as 11:30 or "day 2 11:30", or a time after the opening such as 90 min or 1 h 30 min';

/** A moment as a person wrote it: by the clock, of a day of the show or of none in particular, or after the opening. */
type Written =
  | { readonly kind: 'clock'; readonly seconds: number; readonly day: number | undefined }
  | { readonly kind: 'after_opening'; readonly seconds: number };

/**
 * Reads the window between two moments of a show; without a first it begins at the opening, without a second it ends with
 * the show. A moment in closed time is the next opening.
 *
 * @param texts as written for the options --from and --to
 * @throws InputError with every problem found
 * @example
 * readWindow({ from: '11:00', to: '90 min' }, { seconds: 7200, warmUpSeconds: 0, opensAtSeconds: 36000 }) // => { from: 3600, to: 5400 }
 */
export function readWindow(
  texts: { readonly from?: string | undefined; readonly to?: string | undefined },
  show: ShowSpec,
): TimeWindow {
  const problems: Problem[] = [];
  const from = texts.from === undefined ? undefined : readMoment(texts.from);
  let to = texts.to === undefined ? undefined : readMoment(texts.to);
  // The end of a window that begins on a certain day is on that day too.
  if (from?.kind === 'clock' && to?.kind === 'clock') to = { ...to, day: to.day ?? from.day };
  const window = {
    from: texts.from === undefined ? 0 : inShow('--from', texts.from, from, show, problems),
    to: texts.to === undefined ? show.seconds : inShow('--to', texts.to, to, show, problems),
  };
  if (problems.length === 0 && window.from >= window.to) {
    const [begins, ends] = [texts.from ?? 'the opening', texts.to ?? 'the end of the show'];
    problems.push({
      code: 'contradiction',
      path: '',
      rule: `between ${begins} and ${ends} there is no public time`,
      hint: `The public is there ${hours(show)}.`,
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  return window;
}

/**
 * Reads one moment of a show; one in closed time is the next opening.
 *
 * @param option named in messages
 * @returns public seconds after the opening
 * @throws InputError when it is no moment of this show
 * @example
 * momentOf('--at', '11:00', { seconds: 7200, warmUpSeconds: 0, opensAtSeconds: 36000 }) // => 3600
 */
export function momentOf(option: string, text: string, show: ShowSpec): number {
  const problems: Problem[] = [];
  const seconds = inShow(option, text, readMoment(text), show, problems);
  if (problems.length > 0) throw new InputError(problems);
  return seconds;
}

function readMoment(text: string): Written | undefined {
  const [, day, time = ''] = /^\s*(?:day\s+([1-9]\d?)\s+)?(\S+)\s*$/.exec(text) ?? [];
  const clock = parseClock(time);
  if (clock !== undefined)
    return { kind: 'clock', seconds: clock, day: day === undefined ? undefined : Number(day) };
  const after = parseQuantity(text, 'duration');
  return after.ok && after.value >= 0 ? { kind: 'after_opening', seconds: after.value } : undefined;
}

/** A moment in public seconds; NaN with a problem when it is none of this show. */
function inShow(
  option: string,
  text: string,
  moment: Written | undefined,
  show: ShowSpec,
  problems: Problem[],
): number {
  const refuse = (problem: Omit<Problem, 'path'>): number => {
    problems.push({ ...problem, path: option });
    return NaN;
  };
  if (moment === undefined) return refuse({ code: 'wrong_type', found: text, rule: RULE });
  if (moment.kind === 'after_opening') {
    if (moment.seconds <= show.seconds) return moment.seconds;
    return refuse({
      code: 'out_of_range',
      rule: `${text} after the opening the show is over: ${lasts(show)}`,
    });
  }
  const { opensAtSeconds: opens } = show;
  if (opens === undefined)
    return refuse({
      code: 'contradiction',
      rule: `${text} is a time of day, but the scenario does not say when the public comes in`,
      hint: 'Write a time after the opening such as 90 min, or opens: 10:00 in the show section.',
    });
  const days = (show.sessions?.at(-1)?.clockSeconds ?? 0) + opens >= DAY;
  if (days && moment.day === undefined)
    return refuse({
      code: 'contradiction',
      rule: `${text} is on every day of this show`,
      hint: `Write the day too: "day 1 ${text.trim()}".`,
    });
  const clock =
    moment.day === undefined
      ? (moment.seconds - opens + DAY) % DAY
      : (moment.day - 1) * DAY + moment.seconds - opens;
  const seconds = clock < 0 ? Infinity : publicSeconds(show, clock);
  if (seconds <= show.seconds) return seconds;
  return refuse({
    code: 'out_of_range',
    rule: `${text} is not in the show: the public is there ${hours(show)}`,
  });
}

function lasts(show: ShowSpec): string {
  return `it lasts ${formatSeconds(show.seconds)}`;
}

function hours(show: ShowSpec): string {
  return show.opensAtSeconds === undefined
    ? `for ${formatSeconds(show.seconds)}`
    : `from ${clockLabel(show, 0)} to ${clockLabel(show, show.seconds, { end: true })}`;
}
