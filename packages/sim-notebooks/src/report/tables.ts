import type { Estimate, Kind, ModuleEstimates, RunResult, Scenario } from '@lapwright/sim-core';
import { formatNumber, formatShare, intervalPhrase, KINDS, meanPhrase } from '@lapwright/sim-core';
import { type Cell, htmlTable } from './html.js';

/** The main figures of a run with intervals and replications. */
export function figuresTable(result: RunResult): string {
  const { loop_time_s: lap, overflow_risk: risk, crew, spills_by_cause_per_hour: causes } = result;
  const loop = result.scenario.shape === 'loop';
  const rows: [string, Estimate | null, Kind][] = [
    ['balls passing the counter', result.throughput_bps, KINDS.bps],
    [loop ? 'loop time, mean' : 'time through the chain, mean', lap.mean, KINDS.time],
    ['\u2003standard deviation', lap.sd, KINDS.time],
    ['\u2003fastest 5 % take less than', lap.p05, KINDS.time],
    ['\u2003half take less than', lap.p50, KINDS.time],
    ['\u2003slowest 5 % take more than', lap.p95, KINDS.time],
    ['laps in which the ball lay on the floor', result.broken_lap_share, KINDS.share],
    ['balls on the path', result.balls_on_path, KINDS.balls],
    ['balls spilled', result.spills_per_hour, KINDS.perHour],
    ['\u2003at a module that stood still', causes.module_stopped, KINDS.perHour],
    ['\u2003on the crowd its own stop had left', causes.backlog_of_stop, KINDS.perHour],
    ['\u2003more came than it could take', causes.inflow, KINDS.perHour],
    ['balls leaked from run-outs', result.leaks_per_hour, KINDS.perHour],
    ['balls dropped by a stopping mechanism', result.drops_per_hour, KINDS.perHour],
    ['balls never found again', result.lost_per_hour, KINDS.perHour],
    ['chance of a spill in a public hour', risk.hour, KINDS.share],
    ['chance of a spill in the whole show', risk.show, KINDS.share],
    ['first spill after the opening (shows that spill)', result.first_spill_s, KINDS.time],
    ['stops of all modules', result.stops_per_hour, KINDS.perHour],
    ['stop until cleared by a minder', crew.time_to_clear_s, KINDS.time],
    ['\u2003longest of a show, cleared or not', crew.longest_stop_s, KINDS.time],
    ['\u2003not cleared at closing time', crew.stops_open_at_closing, KINDS.plain],
    ['minders busy', crew.busy_share, KINDS.share],
    ['jobs waiting for a minder', crew.jobs_waiting, KINDS.plain],
    ['residual of Little’s law (laps cut off at both ends)', result.little_residual, KINDS.share],
  ];
  return htmlTable(
    ['figure', 'mean', `${formatShare(result.throughput_bps.confidence)} interval`, 'shows'],
    rows.flatMap(([name, estimate, kind]) =>
      estimate === null || estimate.mean === null
        ? []
        : [[name, meanPhrase(estimate, kind), intervalPhrase(estimate, kind), String(estimate.replications)]],
    ),
    'Main figures',
  );
}

/** A line for each module in loop order, with intervals; what spills and stops first, because paper ends somewhere. */
export function modulesTable(result: RunResult, scenario: Scenario): string {
  const builders = scenario.spec.modules.some(({ builder }) => builder !== undefined);
  const columns: [string, (module: ModuleEstimates) => Estimate | null, Kind][] = [
    ['spill risk in an hour', ({ overflow_risk: risk }) => risk.hour, KINDS.share],
    ['spilled per hour', ({ spills_per_hour: spills }) => spills, KINDS.plain],
    ['stops per hour', ({ stops_per_hour: stops }) => stops, KINDS.plain],
    ['stopped', ({ stopped_share: stopped }) => stopped, KINDS.share],
    ['without balls', ({ starved_share: starved }) => starved, KINDS.share],
    ['balls in basket', ({ level_mean: level }) => level, KINDS.plain],
    ['95 % of time at most', ({ level_p95: level }) => level, KINDS.plain],
    ['balls per second', ({ throughput_bps: flow }) => flow, KINDS.plain],
  ];
  return htmlTable(
    ['module', ...(builders ? ['builder'] : []), 'basket holds', ...columns.map(([name]) => name)],
    result.modules.map((module, m) => {
      const capacity = scenario.spec.modules[m]?.basket.capacity ?? 0;
      return [
        { text: module.id, ...(module.title !== undefined && { note: module.title }) },
        ...(builders ? [module.builder ?? ''] : []),
        formatNumber(capacity),
        ...columns.map(([, figure, kind]) => cell(figure(module), kind)),
      ];
    }),
    'Modules',
  );
}

/** The mean with its interval below it. */
function cell(estimate: Estimate | null, kind: Kind): string | Cell {
  if (estimate === null || estimate.mean === null) return '-';
  const text = meanPhrase(estimate, kind);
  if (estimate.low !== null && estimate.low === estimate.high) return { text, note: 'in all shows' };
  return {
    text,
    note: estimate.high === null && estimate.low !== null ? 'none seen' : intervalPhrase(estimate, kind),
  };
}
