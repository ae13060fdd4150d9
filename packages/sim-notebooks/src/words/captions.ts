import type { Estimate, ModuleEstimates, RoughCut, RunResult, Scenario } from '@lapwright/sim-core';
import {
  estimatePhrase,
  formatNumber,
  formatShare,
  intervalPhrase,
  KINDS,
  meanPhrase,
  shows,
} from '@lapwright/sim-core';
import { LEFT_OUT, levelsAreShares } from '../rows/index.js';
import { closingsNote } from './closings.js';
import { dots } from './dots.js';

/*
 * Captions in plain words, written from the numbers. Each says what to look at first and what the picture shows; each
 * also serves as the picture's text alternative.
 */

/** The interval alone, for use in brackets. */
const within = (estimate: Estimate, kind: Parameters<typeof intervalPhrase>[1]): string =>
  `(${intervalPhrase(estimate, kind)})`;

/** How long laps take. */
export function loopTimeCaption({
  loop_time_s: lap,
  scenario,
  broken_lap_share: broken,
  loop_time_histogram: bars,
}: RunResult): string {
  const loop = scenario.shape === 'loop';
  if (lap.p50.mean === null || lap.p95.mean === null) {
    return `No ball finished a ${loop ? 'lap' : 'way through the chain'} in the time of the show.`;
  }
  const floor =
    broken.mean !== null && broken.mean > 0.0005
      ? ` ${loop ? 'Laps' : 'Ways'} in which the ball lay on the floor, ${estimatePhrase(broken, KINDS.share)}, are not in the picture.`
      : '';
  const all = bars.laps.reduce((sum, count) => sum + count, 0);
  const last =
    (bars.laps.at(-1) ?? 0) > LEFT_OUT * all
      ? ' The last bar holds everything longer.'
      : ` The longest ${formatShare(LEFT_OUT)} lie beyond the right edge.`;
  return `Half of all ${loop ? 'laps' : 'balls'} take less than ${estimatePhrase(lap.p50, KINDS.time)}; one in twenty takes more than ${estimatePhrase(lap.p95, KINDS.time)}. A wide or two-humped picture means that balls get stuck in queues.${last}${floor}`;
}

/** Balls passing the counter over the show. */
export function throughputCaption(result: RunResult): string {
  const { throughput_bps: flow, replications } = result;
  if (flow.mean === null) return 'Nothing was measured.';
  const series = result.series.throughput_bps.flatMap(({ mean }) => mean ?? []);
  const ribbon =
    replications > 1 ? ' The ribbon is the interval of the mean, not the spread of single days.' : '';
  return `The counter sees ${estimatePhrase(flow, { unit: 'balls per second', one: 'ball per second' })}; over the show the average runs from ${formatNumber(Math.min(...series))} to ${formatNumber(Math.max(...series))}.${ribbon}${closingsNote(result)}`;
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
  const lead = first ? ` The fullest basket on average is that of ${first.id} (${say(first.value)})` : '';
  const next = second && second.value > 0 ? `, then ${second.id} (${say(second.value)}).` : '.';
  return `Each line is a basket, in the order in which balls pass; darker is fuller, averaged over ${shows(result.replications)}. The colours are spread so that low levels show.${lead}${next} A line that is dark all day is where surplus balls wait; a line that is pale on average may still run over on a bad day.${closingsNote(result)}`;
}

/** The chance of a spill at each module. */
export function riskCaption(result: RunResult, shown: readonly string[], what: string): string {
  const { overflow_risk: risk, replications } = result;
  if (shown.length === 0) {
    return risk.show.high === 0
      ? 'No basket can run over in this scenario.'
      : `No basket ran over in ${shows(replications)}: ${within(risk.show, KINDS.share)} of such shows.`;
  }
  const spilling = result.modules.filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) > 0).length;
  const worst = result.modules.find(({ id }) => id === shown[0]);
  const chance = worst && (what === 'show' ? worst.overflow_risk.show : worst.overflow_risk.hour);
  const highest = worst && chance ? ` Highest at ${worst.id}: ${estimatePhrase(chance, KINDS.share)}.` : '';
  const cut = spilling > shown.length ? ` The ${shown.length} highest of ${spilling} are shown.` : '';
  const calm = result.modules.length - spilling;
  const rest =
    calm > 0 ? ` ${calm} of the ${result.modules.length} baskets ran over in none of the shows.` : '';
  return `The chance that a basket runs over at least once in a ${what}.${highest} ${dots(replications)}${cut}${rest}`;
}

/** Where and why balls fall. */
export function spillCaption(result: RunResult): string {
  const { spills_per_hour: spills, spills_by_cause_per_hour: causes } = result;
  const total = spills.mean ?? 0;
  if (total === 0) return 'No ball was spilled.';
  const part = (estimate: Estimate): string =>
    formatShare(Math.round((1000 * (estimate.mean ?? 0)) / total) / 1000);
  return `${estimatePhrase(spills, KINDS.ballsPerHour)} are spilled: ${part(causes.module_stopped)} of them while the module they fall at stands still, ${part(causes.backlog_of_stop)} on the crowd that such a stop has left at that same module, and ${part(causes.inflow)} because more came than it could take, often a crowd let loose upstream.`;
}

/** How much each module goes without balls. */
export function starvationCaption(result: RunResult, rough: RoughCut): string {
  const least = extreme(result, ({ starved_share: starved }) => -(starved.mean ?? Infinity));
  const slowest = rough.modules[rough.slowest]?.id;
  const busiest =
    least && least.starved_share.mean !== null
      ? ` The least is at ${least.id}, ${estimatePhrase(least.starved_share, KINDS.share)}${least.id === slowest ? ', the slowest module by reckoning' : ''}.`
      : '';
  return `For a motor that always turns, the share of its cycles that pick no ball; for one that waits, the share of its time spent waiting. Some of that is healthy: it is the slack that works off a crowd. A module that lifts many balls at once seldom picks none, even when its batches are half empty.${busiest}`;
}

/** Which modules stop most. */
export function stopsCaption(result: RunResult, shown: number): string {
  const { stops_per_hour: total, replications } = result;
  const most = extreme(result, ({ stops_per_hour: stops }) => stops.mean ?? 0);
  const stopping = result.modules.filter(({ stops_per_hour: stops }) => (stops.mean ?? 0) > 0).length;
  if (!most || stopping === 0) return 'Nothing stopped.';
  const cut = stopping > shown ? ` The ${shown} highest of ${stopping} are shown.` : '';
  return `All modules together make ${estimatePhrase(total, KINDS.stopsPerHour)}; ${most.id} makes the most, ${estimatePhrase(most.stops_per_hour, KINDS.stopsPerHour)}. ${dots(replications)}${cut}`;
}

/** How busy the minders are. */
export function crewCaption(result: RunResult, scenario: Scenario): string {
  const most = Math.max(...scenario.spec.crew.duty.map(({ minders }) => minders));
  const {
    busy_share: busy,
    time_to_clear_s: clear,
    longest_stop_s: longest,
    jobs_waiting: waiting,
    stops_open_at_closing: open,
  } = result.crew;
  if (busy.mean === null) return 'There are no minders on duty.';
  const stop =
    clear.mean === null
      ? ''
      : ` A stop lasts ${estimatePhrase(clear, KINDS.time)} until a minder has cleared it.`;
  const worst =
    longest.mean === null
      ? ''
      : ` The longest of a show lasts ${estimatePhrase(longest, KINDS.time)}, those not cleared by closing time included.`;
  const left =
    (open.mean ?? 0) >= 0.05 ? ` At closing time ${estimatePhrase(open, KINDS.plain)} are not cleared.` : '';
  const jobs =
    (waiting.mean ?? 0) < 0.005
      ? 'hardly ever does a job wait for one'
      : `${estimatePhrase(waiting, KINDS.plain)} jobs wait for one on average`;
  return `Minders busy at each time of the show, of ${most} at most on duty; over the whole of it they are busy ${estimatePhrase(busy, KINDS.share)} of their time, and ${jobs}.${stop}${worst}${left}`;
}

/** Where the balls are. */
export function placesCaption(result: RunResult): string {
  const last = (name: 'floor' | 'lost'): string => {
    const estimate = result.series.balls_by_place[name].at(-1);
    if (!estimate || estimate.mean === null || estimate.high === 0) return 'none';
    return `${meanPhrase(estimate, KINDS.plain)} ${within(estimate, KINDS.plain)}`;
  };
  const [floor, lost] = [last('floor'), last('lost')];
  const closing =
    floor === 'none' && lost === 'none'
      ? 'At closing time no ball lies on the floor.'
      : `At closing time ${floor} lie on the floor and ${lost === 'none' ? 'none is lost for good' : `${lost} have not been found again`}.`;
  return `Where the balls are over the show, averaged over ${shows(result.replications)}. ${closing}${closingsNote(result)}`;
}

/** The module with the highest value. */
function extreme(result: RunResult, value: (module: ModuleEstimates) => number): ModuleEstimates | undefined {
  return result.modules.toSorted((a, b) => value(b) - value(a))[0];
}
