import type { Estimate, RoughCut, RunResult, Scenario } from '@lapwright/sim-core';
import { formatNumber, formatSeconds, formatShare, intervalPhrase } from '@lapwright/sim-core';
import { highest, levelsAreShares, type ModuleRow, moduleRows } from '../rows/index.js';

/*
 * Captions in plain words, written from the numbers. Each says what to look at first and what the picture shows; each
 * also serves as the picture's text alternative.
 */

/** How long laps take. */
export function loopTimeCaption({ loop_time_s: lap, scenario, broken_lap_share: broken }: RunResult): string {
  const loop = scenario.shape === 'loop';
  const one = loop ? 'lap' : 'way through the chain';
  if (lap.mean.mean === null || lap.p50.mean === null || lap.p05.mean === null || lap.p95.mean === null) {
    return `No ball finished a ${one} in the time of the show.`;
  }
  const floor =
    broken.mean !== null && broken.mean > 0.0005
      ? ` Laps in which the ball lay on the floor (${formatShare(broken.mean)}, ${intervalPhrase(broken, formatShare)}) are not in the picture.`
      : '';
  return `Half of all ${loop ? 'laps' : 'balls'} take less than ${formatSeconds(lap.p50.mean)} (${intervalPhrase(lap.p50, formatSeconds)}); one in twenty takes more than ${formatSeconds(lap.p95.mean)} (${intervalPhrase(lap.p95, formatSeconds)}). A wide or two-humped picture means that balls get stuck in queues.${floor}`;
}

/** Balls passing the counter over the day. */
export function throughputCaption(result: RunResult): string {
  const { throughput_bps: flow } = result;
  if (flow.mean === null) return 'Nothing was measured.';
  const series = result.series.throughput_bps.flatMap(({ mean }) => mean ?? []);
  const low = Math.min(...series);
  const high = Math.max(...series);
  return `On average ${formatNumber(flow.mean)} balls a second pass the counter (${intervalPhrase(flow, formatNumber)}). Over the day the average runs from ${formatNumber(low)} to ${formatNumber(high)}; the ribbon is the interval of the mean, not the spread of single days.`;
}

/** The map of basket levels. */
export function levelCaption(result: RunResult, scenario: Scenario): string {
  const shares = levelsAreShares(scenario);
  const usual = scenario.spec.modules.map(({ id, basket }, m) => {
    const level = result.modules[m]?.level_mean.mean ?? 0;
    return { id, value: shares ? level / basket.capacity : level };
  });
  const [first, second] = usual.toSorted((a, b) => b.value - a.value);
  const say = (value: number): string =>
    shares ? `${formatShare(value)} full` : `${formatNumber(value)} balls`;
  const lead = first ? `The fullest basket on average is that of ${first.id} (${say(first.value)})` : '';
  const next = second && second.value > 0 ? `, then ${second.id} (${say(second.value)})` : '';
  return `Each line is a basket, in the order in which balls pass; darker is fuller, averaged over all simulated shows. ${lead}${next}. A line that is dark all day is where surplus balls wait; a line that is pale on average may still run over on a bad day.`;
}

/** The chance of a spill at each module. */
export function riskCaption(result: RunResult, rows: readonly ModuleRow[], what: string): string {
  if (rows.length === 0) {
    const { high } = result.overflow_risk.show;
    return `No basket ran over in ${result.replications} simulated shows${high === null ? '' : `, so at most ${formatShare(high)} of such shows spill (${formatShare(result.overflow_risk.show.confidence)} sure)`}.`;
  }
  const [worst] = rows;
  const calm = result.modules.filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) === 0).length;
  const rest =
    calm > 0 ? ` ${calm} of the ${result.modules.length} baskets ran over in none of the shows.` : '';
  return `The chance that a basket runs over at least once in a ${what}. ${worst ? `Highest at ${worst.module}: ${formatShare(worst.mean)} (${formatShare(worst.low)} to ${formatShare(worst.high)}).` : ''} Dots are estimates, bars their ${formatShare(result.throughput_bps.confidence)} intervals.${rest}`;
}

/** Where and why balls fall. */
export function spillCaption(result: RunResult): string {
  const { spills_per_hour: spills, spills_by_cause_per_hour: causes } = result;
  const total = spills.mean ?? 0;
  if (total === 0) return 'No ball was spilled.';
  const part = (estimate: Estimate): string => formatShare((estimate.mean ?? 0) / total);
  return `Of ${formatNumber(total)} balls spilled per hour (${intervalPhrase(spills, formatNumber)}), ${part(causes.module_stopped)} fall while the module they fall at stands still, ${part(causes.backlog_of_stop)} on the crowd that such a stop has left, and ${part(causes.inflow)} because more came than it could take, often a crowd let loose upstream.`;
}

/** How much of its time each module goes without balls. */
export function starvationCaption(result: RunResult, rough: RoughCut): string {
  const rows = moduleRows(result, ({ starved_share: starved }) => starved);
  const least = rows.toSorted((a, b) => a.mean - b.mean)[0];
  const slowest = rough.modules[rough.slowest]?.id;
  const busiest = least
    ? ` The busiest is ${least.module} (starved ${formatShare(least.mean)} of the time)${least.module === slowest ? ', which is also the slowest by reckoning' : ''}.`
    : '';
  return `A module is starved when its mechanism turns or waits with no balls to lift. Some starving is healthy: it is the slack that works off a crowd.${busiest}`;
}

/** Which modules stop most. */
export function stopsCaption(result: RunResult): string {
  const rows = highest(
    moduleRows(result, ({ stops_per_hour: stops }) => stops),
    1,
  );
  const [most] = rows;
  if (!most) return 'Nothing stopped.';
  const total = result.stops_per_hour;
  return `All modules together stop ${formatNumber(total.mean ?? 0)} times an hour (${intervalPhrase(total, formatNumber)}); most often ${most.module}, ${formatNumber(most.mean)} times (${formatNumber(most.low)} to ${formatNumber(most.high)}).`;
}

/** How busy the minders are. */
export function crewCaption(result: RunResult, scenario: Scenario): string {
  const most = Math.max(...scenario.spec.crew.duty.map(({ minders }) => minders));
  const {
    busy_share: busy,
    time_to_clear_s: clear,
    longest_time_to_clear_s: longest,
    jobs_waiting: waiting,
  } = result.crew;
  if (busy.mean === null) return 'There are no minders on duty.';
  const wait =
    clear.mean === null
      ? ''
      : ` A stop lasts ${formatSeconds(clear.mean)} on average until a minder has cleared it (${intervalPhrase(clear, formatSeconds)}), the longest of a show ${formatSeconds(longest.mean ?? 0)} (${intervalPhrase(longest, formatSeconds)}).`;
  return `Minders busy at each time of the day, of ${most} at most on duty; over the day they are busy ${formatShare(busy.mean)} of the time (${intervalPhrase(busy, formatShare)}), and ${formatNumber(waiting.mean ?? 0)} jobs wait for one on average.${wait}`;
}

/** Where the balls are. */
export function placesCaption(result: RunResult): string {
  const last = (name: 'floor' | 'lost'): number => result.series.balls_by_place[name].at(-1)?.mean ?? 0;
  return `Where the balls are over the day, averaged over all simulated shows. At closing time ${formatNumber(last('floor'))} lie on the floor and ${formatNumber(last('lost'))} have not been found again.`;
}
