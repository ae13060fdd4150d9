import type { RunResult } from '../experiments/index.js';
import type { Estimate } from '../statistics/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';
import { estimatePhrase, FORMATS, intervalPhrase } from './phrase.js';

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
  const where = scenario.shape === 'loop' ? 'go round' : 'come out at the end';
  if (flow.mean === null || flow.mean === 0) return `No balls ${where}.`;
  return `About ${formatNumber(flow.mean, 2)} balls a second ${where}: ${estimatePhrase(flow, FORMATS.bps)}.`;
}

function lapSentence({ loop_time_s: lap, scenario, broken_lap_share: broken }: RunResult): string {
  const what = scenario.shape === 'loop' ? 'A lap' : 'The way through';
  if (lap.mean.mean === null) return `${what} was not finished by any ball in the time of the show.`;
  const spread =
    lap.p05.mean === null || lap.p95.mean === null
      ? ''
      : ` Nine laps in ten take between ${formatSeconds(lap.p05.mean)} and ${formatSeconds(lap.p95.mean)}.`;
  const floor =
    broken.mean === null || broken.mean < 0.005
      ? ''
      : ` In ${formatShare(broken.mean)} of the laps the ball lies on the floor for a while; these are not counted.`;
  const through = scenario.shape === 'loop' ? spread : spread.replace('laps', 'balls');
  return `${what} takes ${estimatePhrase(lap.mean, formatSeconds)}.${through}${floor}`;
}

function spillSentence(result: RunResult): string {
  const { spills_per_hour: spills, overflow_risk: risk, replications } = result;
  if (spills.mean === 0) {
    const { high } = risk.show;
    const limit =
      high === null
        ? ''
        : `: at most ${formatShare(high)} of such shows spill (${formatShare(risk.show.confidence)} sure)`;
    return `No basket ran over in ${shows(replications)}${limit}.`;
  }
  const hour = riskPhrase(risk.hour, 'public hour');
  const show = riskPhrase(risk.show, 'show');
  return `Baskets run over, ${estimatePhrase(spills, (x) => `${formatNumber(x)} balls an hour`)}. ${[hour, show].filter((part) => part !== '').join(' ')}`;
}

function riskPhrase(risk: Estimate | null, what: string): string {
  if (risk === null || risk.mean === null) return '';
  return `Chance of a spill in a ${what}: ${estimatePhrase(risk, formatShare)}.`;
}

function crewSentence({ crew, stops_per_hour: stops }: RunResult): string {
  if (stops.mean === 0) return 'Nothing stopped.';
  const how = `Modules stop ${estimatePhrase(stops, (x) => `${formatNumber(x)} times an hour`)} in all.`;
  if (crew.time_to_clear_s.mean === null) return how;
  const busy =
    crew.busy_share.mean === null
      ? ''
      : ` Minders are busy ${formatShare(crew.busy_share.mean)} of the time (${intervalPhrase(crew.busy_share, formatShare)}).`;
  return `${how} A stopped module waits ${estimatePhrase(crew.time_to_clear_s, formatSeconds)} until a minder has cleared it.${busy}`;
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
