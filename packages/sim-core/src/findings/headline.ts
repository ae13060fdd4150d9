import type { RunResult } from '../experiments/index.js';
import type { Estimate } from '../statistics/index.js';
import { formatSeconds, formatShare } from '../units/index.js';
import { estimatePhrase, KINDS, meanPhrase } from './phrase.js';

/**
 * What a run says, in plain sentences with their intervals: flow, laps, spills, crew.
 *
 * @example
 * headline(exampleResult).length // => 4
 */
export function headline(result: RunResult): string[] {
  return [flowSentence(result), lapSentence(result), spillSentence(result), crewSentence(result)];
}

function flowSentence({ throughput_bps: flow, scenario }: RunResult): string {
  const loop = scenario.shape === 'loop';
  if (flow.mean === null || flow.mean === 0)
    return loop ? 'No balls go round.' : 'No balls come out at the end.';
  return `${loop ? 'The loop passes' : 'The chain passes'} ${estimatePhrase(flow, { unit: 'balls per second', one: 'ball per second' })}.`;
}

function lapSentence({ loop_time_s: lap, scenario, broken_lap_share: broken }: RunResult): string {
  const loop = scenario.shape === 'loop';
  const what = loop ? 'A lap' : 'The way through';
  if (lap.mean.mean === null) return `${what} was not finished by any ball in the time of the show.`;
  const spread =
    lap.p05.mean === null || lap.p95.mean === null
      ? ''
      : ` Nine ${loop ? 'laps' : 'balls'} in ten take between ${formatSeconds(lap.p05.mean)} and ${formatSeconds(lap.p95.mean)}.`;
  const floor =
    broken.mean === null || broken.mean < 0.005
      ? ''
      : ` In ${meanPhrase(broken, KINDS.share)} of the ${loop ? 'laps' : 'ways'} the ball lies on the floor for a while; these are not counted.`;
  return `${what} takes ${estimatePhrase(lap.mean, KINDS.time)}.${spread}${floor}`;
}

function spillSentence(result: RunResult): string {
  const { spills_per_hour: spills, overflow_risk: risk, replications } = result;
  if (spills.mean === 0) {
    const { high } = risk.show;
    const limit =
      high === null
        ? ''
        : `; the ${formatShare(risk.show.confidence)} interval reaches up to ${formatShare(high)} of such shows`;
    return `No basket ran over in ${shows(replications)}${limit}.${leakPhrase(result)}`;
  }
  const chances = [riskPhrase(risk.hour, 'public hour'), riskPhrase(risk.show, 'show')].filter(
    (part) => part !== '',
  );
  return `Baskets run over: ${estimatePhrase(spills, KINDS.ballsPerHour)} fall. ${chances.join(' ')}${leakPhrase(result)}`;
}

function leakPhrase({ leaks_per_hour: leaks }: RunResult): string {
  return (leaks.mean ?? 0) > 0
    ? ` Besides, ${estimatePhrase(leaks, KINDS.ballsPerHour)} leak to the floor.`
    : '';
}

function riskPhrase(risk: Estimate | null, what: string): string {
  if (risk === null || risk.mean === null) return '';
  return `Chance of a spill in a ${what}: ${estimatePhrase(risk, KINDS.share)}.`;
}

function crewSentence({ crew, stops_per_hour: stops }: RunResult): string {
  if (stops.mean === 0) return 'Nothing stopped.';
  const how = `All modules together make ${estimatePhrase(stops, KINDS.stopsPerHour)}.`;
  const open =
    (crew.stops_open_at_closing.mean ?? 0) >= 0.05
      ? ` At closing time ${estimatePhrase(crew.stops_open_at_closing, KINDS.plain)} of them are still not cleared.`
      : '';
  if (crew.time_to_clear_s.mean === null) return how + open;
  const busy =
    crew.busy_share.mean === null
      ? ''
      : ` The minders are busy ${estimatePhrase(crew.busy_share, KINDS.share)} of their time.`;
  return `${how} A stopped module waits ${estimatePhrase(crew.time_to_clear_s, KINDS.time)} until a minder has cleared it.${busy}${open}`;
}

/**
 * A number of simulated shows in words.
 *
 * @example
 * [shows(1), shows(100)] // => ['1 simulated show', '100 simulated shows']
 */
export function shows(replications: number): string {
  return replications === 1 ? '1 simulated show' : `${replications} simulated shows`;
}
