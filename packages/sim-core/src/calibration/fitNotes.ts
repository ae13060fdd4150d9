import type { ModuleRecord } from '../logs/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';
import type { CauseFit } from './fitCause.js';
import type { FullFitOptions } from './fitOptions.js';
import type { ModuleFit } from './moduleFit.js';

/** Fewer cycle times than this make a rough distribution. */
const FEW_CYCLES = 30;
/** Fewer stops than this make a rough rate. */
const FEW_STOPS = 5;

/** What to know before the figures of a fit are used, in plain sentences. */
export function notesOf(
  fit: Omit<ModuleFit, 'notes'>,
  records: readonly ModuleRecord[],
  options: FullFitOptions,
): string[] {
  return [
    ...cycleNotes(fit),
    ...batchNotes(fit, records),
    ...stopNotes(fit),
    ...fit.causes.flatMap((cause) => causeNotes(cause)),
    ...driftNotes(fit, 1 - options.confidence),
    ...showNotes(records, options),
  ];
}

function cycleNotes({ cycle }: Omit<ModuleFit, 'notes'>): string[] {
  if (cycle === null) return ['No cycle was timed: the cycle time of the file stays as it is.'];
  const { gaps, choice, mean } = cycle;
  const notes: string[] = [];
  if (mean.n === 1) notes.push('One cycle was timed: that says nothing of how much the cycle time varies.');
  else if (mean.n < FEW_CYCLES)
    notes.push(`Only ${mean.n} cycles were timed: the shape of their distribution is a guess.`);
  if (gaps.skipped > 0)
    notes.push(
      `${count(gaps.skipped, 'cycle')} without a batch ${gaps.skipped === 1 ? 'was' : 'were'} told from times near whole multiples of one cycle.`,
    );
  if (!gaps.regular)
    notes.push(
      'Cycle times vary too much to tell a cycle that brought nothing from a long one: each time counts as one cycle.',
    );
  if (gaps.leftOut.length > 0) {
    const listed = gaps.leftOut
      .slice(0, 3)
      .map(({ at, seconds, why }) => `${formatSeconds(seconds)} ending at ${formatSeconds(at)}, ${why}`);
    const more = gaps.leftOut.length > 3 ? `; and ${gaps.leftOut.length - 3} more` : '';
    notes.push(
      `${count(gaps.leftOut.length, 'time')} between batches ${gaps.leftOut.length === 1 ? 'was' : 'were'} left out (${listed.join('; ')}${more}). Was a stop not written down?`,
    );
  }
  if (choice.reason === 'no family fits')
    notes.push('No usual distribution fits the cycle times: the times themselves stand for them.');
  if (choice.reason === 'values repeat')
    notes.push('Many cycle times are the same, as rounded times are: the times themselves stand for them.');
  return notes;
}

function batchNotes({ batch }: Omit<ModuleFit, 'notes'>, records: readonly ModuleRecord[]): string[] {
  if (batch === null) return ['No batch was counted: batch and catch of the file stay as they are.'];
  const notes: string[] = [];
  if (!batch.given && batch.full < 3 && batch.batches > 3)
    notes.push(
      `The largest batch, ${count(batch.batch, 'ball')}, came out only ${batch.full === 1 ? 'once' : 'twice'}: say how many it lifts at most if that was a mistake.`,
    );
  if (batch.catch === null)
    notes.push(
      records.every(({ where }) => where === 'bench')
        ? 'The catch cannot be told: no two batches came out one after the other without a stop between.'
        : 'The catch cannot be told from a show, where the basket may hold fewer balls than a batch.',
    );
  else if (batch.catch.balls === 0)
    notes.push(
      'No ball was caught in any cycle: batch and catch need another look, and the catch of the file stays.',
    );
  else if (records.some(({ where }) => where === 'show'))
    notes.push('The catch is from the bench alone: in a show the basket may hold fewer balls than a batch.');
  return notes;
}

function stopNotes({ anyStop, runningSeconds }: Omit<ModuleFit, 'notes'>): string[] {
  if (anyStop.stops > 0) return [];
  const limit = anyStop.exact.high * 3600;
  const three = (anyStop.ruleOfThree ?? NaN) * 3600;
  return [
    `No stop was seen in ${formatSeconds(runningSeconds)} of running. That is not never: up to ${formatNumber(limit)} stops an hour would not surprise (rule of three: ${formatNumber(three)}).`,
  ];
}

function causeNotes(cause: CauseFit): string[] {
  const notes: string[] = [];
  const { stops, wear, clear, crowding } = cause;
  if (stops > 0 && stops < FEW_STOPS) {
    const unit =
      cause.clock === 'running'
        ? 'an hour of running'
        : cause.clock === 'per_cycle'
          ? '1000 cycles'
          : '1000 balls';
    const scale = cause.clock === 'running' ? 3600 : 1000;
    notes.push(
      `${cause.cause}: ${count(stops, 'stop')} seen, so anything from ${formatNumber(scale * (cause.rate.low ?? 0))} to ${formatNumber(scale * (cause.rate.high ?? 0))} in ${unit} fits.`,
    );
  }
  if (wear !== null && wear.pValue < 1 - wear.confidence)
    notes.push(
      wear.shape > 1
        ? `${cause.cause}: the longer it has run, the sooner it stops (Weibull shape ${formatNumber(wear.shape)}).`
        : `${cause.cause}: stops come in clusters, soon after one another (Weibull shape ${formatNumber(wear.shape)}).`,
    );
  if (stops > 0 && clear === null)
    notes.push(`${cause.cause}: no clearing was seen to its end; the clear time of the file stays as it is.`);
  if (clear !== null && clear.pooled)
    notes.push(`${cause.cause}: too few clear times of its own; those of all causes were taken together.`);
  if (clear !== null && clear.choice === null)
    notes.push(
      `${cause.cause}: ${count(clear.mean.n, 'clear time')}${clear.pooled ? ' of all causes' : ''} ${clear.mean.n === 1 ? 'says' : 'say'} nothing of how much such times vary; an exponential time is assumed.`,
    );
  if (clear !== null && clear.open.length > 0)
    notes.push(
      `${cause.cause}: ${count(clear.open.length, 'stop')} not seen to the end ${clear.open.length === 1 ? 'counts' : 'count'} as longer than seen.`,
    );
  if (crowding !== null && crowding.times.low !== null && crowding.times.low > 1)
    notes.push(
      `${cause.cause}: while the basket stands above ${formatShare(crowding.above)} of its capacity, ${formatNumber(crowding.times.value ?? NaN, { digits: 2 })} times as often as below (95 % interval: ${formatNumber(crowding.times.low, { digits: 2 })}${crowding.times.high === null ? ' or more' : ` to ${formatNumber(crowding.times.high, { digits: 2 })}`}).`,
    );
  return notes;
}

function driftNotes({ drift }: Omit<ModuleFit, 'notes'>, alpha: number): string[] {
  const notes: string[] = [];
  if (drift.stops !== null && drift.stops.pValue < alpha)
    notes.push(
      drift.stops.power > 1
        ? 'Stops come more often towards the end of watching: one rate for the whole day says too little of the afternoon.'
        : 'Stops come less often towards the end of watching, as if it had to run in.',
    );
  if (drift.cycles !== null && drift.cyclePerHour !== null && drift.cycles.pValue < alpha)
    notes.push(
      `The cycle time ${drift.cyclePerHour > 0 ? 'grows' : 'shrinks'} by about ${formatNumber(100 * Math.abs(drift.cyclePerHour), { digits: 2 })} % in an hour: what is fitted is that of the whole log, and at its end the module is ${drift.cyclePerHour > 0 ? 'slower' : 'quicker'}.`,
    );
  return notes;
}

function showNotes(records: readonly ModuleRecord[], { reachSeconds }: FullFitOptions): string[] {
  const cleared = records.some(
    ({ where, stops }) => where === 'show' && stops.some((stop) => stop.cleared !== null),
  );
  const ran = records.some(({ where, stops }) => where === 'show' && stops.length > 0)
    ? [
        'In a show, all time it stood in the loop without a stop counts as running; a module that waits for balls ran less.',
      ]
    : [];
  const reach =
    cleared && reachSeconds === 0
      ? [
          'Clear times from the show still hold the time until a minder was there: say how long that takes (reach, as in --reach 20s), or it counts twice.',
        ]
      : [];
  return [...ran, ...reach];
}

function count(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? '' : 's'}`;
}
