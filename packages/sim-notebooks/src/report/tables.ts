import type { Estimate, Format, ModuleEstimates, RunResult, Scenario } from '@lapwright/sim-core';
import { FORMATS, formatNumber, formatSeconds, formatShare, intervalPhrase } from '@lapwright/sim-core';
import { type Cell, htmlTable } from './html.js';

/** The main figures of a run with intervals and replications. */
export function figuresTable(result: RunResult): string {
  const { loop_time_s: lap, overflow_risk: risk, crew, spills_by_cause_per_hour: causes } = result;
  const loop = result.scenario.shape === 'loop';
  const rows: [string, Estimate | null, Format][] = [
    ['balls passing the counter', result.throughput_bps, FORMATS.bps],
    [loop ? 'loop time, mean' : 'time through the chain, mean', lap.mean, formatSeconds],
    ['\u2003standard deviation', lap.sd, formatSeconds],
    ['\u2003fastest 5 % take less than', lap.p05, formatSeconds],
    ['\u2003half take less than', lap.p50, formatSeconds],
    ['\u2003slowest 5 % take more than', lap.p95, formatSeconds],
    ['laps in which the ball lay on the floor', result.broken_lap_share, formatShare],
    ['balls on the path', result.balls_on_path, FORMATS.balls],
    ['balls spilled', result.spills_per_hour, FORMATS.perHour],
    ['\u2003at a module that stood still', causes.module_stopped, FORMATS.perHour],
    ['\u2003on the crowd a stop had left', causes.backlog_of_stop, FORMATS.perHour],
    ['\u2003more came than it could take', causes.inflow, FORMATS.perHour],
    ['balls leaked from run-outs', result.leaks_per_hour, FORMATS.perHour],
    ['balls dropped by a stopping mechanism', result.drops_per_hour, FORMATS.perHour],
    ['balls never found again', result.lost_per_hour, FORMATS.perHour],
    ['chance of a spill in a public hour', risk.hour, formatShare],
    ['chance of a spill in the whole show', risk.show, formatShare],
    ['first spill after the opening (shows that spill)', result.first_spill_s, formatSeconds],
    ['stops of all modules', result.stops_per_hour, FORMATS.perHour],
    ['stop until cleared by a minder', crew.time_to_clear_s, formatSeconds],
    ['\u2003longest in a show', crew.longest_time_to_clear_s, formatSeconds],
    ['minders busy', crew.busy_share, formatShare],
    ['jobs waiting for a minder', crew.jobs_waiting, formatNumber],
    ['residual of Little’s law', result.little_residual, (value) => `${formatNumber(100 * value)} %`],
  ];
  return htmlTable(
    ['figure', 'mean', `${formatShare(result.throughput_bps.confidence)} interval`, 'shows'],
    rows.flatMap(([name, estimate, format]) =>
      estimate === null || estimate.mean === null
        ? []
        : [[name, format(estimate.mean), intervalPhrase(estimate, format), String(estimate.replications)]],
    ),
    'Main figures',
  );
}

/** A line for each module in loop order, with intervals. */
export function modulesTable(result: RunResult, scenario: Scenario): string {
  const builders = scenario.spec.modules.some(({ builder }) => builder !== undefined);
  const short: Format = (value) => formatNumber(value, 2);
  const columns: [string, (module: ModuleEstimates) => Estimate | null, Format][] = [
    ['balls/s', ({ throughput_bps: flow }) => flow, formatNumber],
    ['without balls', ({ starved_share: starved }) => starved, formatShare],
    ['stopped', ({ stopped_share: stopped }) => stopped, formatShare],
    ['stops/h', ({ stops_per_hour: stops }) => stops, short],
    ['balls in basket', ({ level_mean: level }) => level, short],
    ['95 % of time below', ({ level_p95: level }) => level, short],
    ['spilled/h', ({ spills_per_hour: spills }) => spills, short],
    ['spill risk in an hour', ({ overflow_risk: risk }) => risk.hour, formatShare],
  ];
  return htmlTable(
    ['module', ...(builders ? ['builder'] : []), 'basket holds', ...columns.map(([name]) => name)],
    result.modules.map((module, m) => {
      const capacity = scenario.spec.modules[m]?.basket.capacity ?? 0;
      return [
        { text: module.id, ...(module.title !== undefined && { note: module.title }) },
        ...(builders ? [module.builder ?? ''] : []),
        formatNumber(capacity),
        ...columns.map(([, figure, format]) => cell(figure(module), format)),
      ];
    }),
    'Modules',
  );
}

/** The mean with its interval below it; no interval when it has no width. */
function cell(estimate: Estimate | null, format: Format): string | Cell {
  if (estimate === null || estimate.mean === null) return '-';
  const { mean, low, high } = estimate;
  if (low === null || high === null || low === high) return format(mean);
  return { text: format(mean), note: intervalPhrase(estimate, format) };
}
