import type { RoughCut } from '../estimates/index.js';
import type { ModuleEstimates, RunResult } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';

/** Minders busier than this have little left for a bad moment. */
const BUSY = 0.6;

/**
 * What to do about what a run showed: at most four sentences, most urgent first. Each names the figures it rests on; none
 * promises an effect, which only another run can show.
 *
 * @example
 * advice(exampleResult, exampleLoop, roughCut(exampleLoop))[0].length > 0 // => true
 */
export function advice(result: RunResult, spec: LoopSpec, rough: RoughCut): string[] {
  const found = [
    ...spillAdvice(result, rough),
    ...chargeAdvice(result, spec, rough),
    ...crewAdvice(result, spec),
  ];
  if (found.length > 0) return found.slice(0, 4);
  return [
    'Nothing here calls for a change. To see how much the loop can bear, lengthen the stops or add balls in the file and run it again.',
  ];
}

/** The modules that spill most, at most three, most first. */
export function worstSpillers(result: RunResult): ModuleEstimates[] {
  return result.modules
    .filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) > 0)
    .toSorted((a, b) => (b.spills_per_hour.mean ?? 0) - (a.spills_per_hour.mean ?? 0))
    .slice(0, 3);
}

function spillAdvice(result: RunResult, rough: RoughCut): string[] {
  const total = result.spills_per_hour.mean ?? 0;
  return worstSpillers(result)
    .filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) >= 0.1 * total)
    .slice(0, 2)
    .map((module) => {
      const causes = module.spills_by_cause_per_hour;
      const spills = module.spills_per_hour.mean ?? 0;
      const share = formatShare(spills / total);
      const shares = (['module_stopped', 'backlog_of_stop', 'inflow'] as const).map((cause) => ({
        cause,
        part: (causes[cause].mean ?? 0) / spills,
      }));
      const [main] = shares.toSorted((a, b) => b.part - a.part);
      const room = rough.modules.find(({ id }) => id === module.id);
      const flood =
        room && room.floodsAfterSeconds < Infinity
          ? ` (it floods about ${formatSeconds(room.floodsAfterSeconds)} after it stops)`
          : '';
      const intro = `${module.id} spills ${formatNumber(spills)} balls an hour, ${share} of all`;
      switch (main?.cause) {
        case 'module_stopped':
          return `${intro}, mostly while it stands still${flood}. Get to it sooner, give it a bigger basket, mend what stops it, or keep it off the loop.`;
        case 'backlog_of_stop':
          return `${intro}, mostly on the crowd of balls that a stop has left. A bigger basket or a quicker cycle there would work the crowd off.`;
        default:
          return `${intro}, mostly because more balls come than it takes in${room ? ` (it passes ${formatNumber(room.capacityBps)} bps)` : ''}. Look upstream for a stop that lets a crowd loose, take balls out, or give it a bigger basket.`;
      }
    });
}

function chargeAdvice(result: RunResult, spec: LoopSpec, rough: RoughCut): string[] {
  if (spec.supply.kind !== 'charge') return [];
  const charge = result.scenario.charge_balls;
  const slowest = rough.modules[rough.slowest];
  if (slowest === undefined) return [];
  if (charge > rough.mostBalls) {
    return [
      `${charge} balls are more than the loop carries: above about ${rough.mostBalls} the basket of ${slowest.id}, the slowest module, runs over even on a good day. Take some out.`,
    ];
  }
  const flow = result.throughput_bps.mean ?? 0;
  if (rough.surplusBalls === 0 && flow < 0.95 * slowest.capacityBps) {
    return [
      `The loop has room for more balls: it passes ${formatNumber(flow)} bps, and ${slowest.id}, its slowest module, could pass ${formatNumber(slowest.capacityBps)}.`,
    ];
  }
  return [];
}

function crewAdvice(result: RunResult, spec: LoopSpec): string[] {
  const { busy_share: busy, jobs_waiting: waiting } = result.crew;
  if (busy.mean !== null && busy.mean > BUSY) {
    return [
      `The minders are busy ${formatShare(busy.mean)} of the time and ${formatNumber(waiting.mean ?? 0)} jobs wait on average: one more minder, or fewer stops, is worth a run.`,
    ];
  }
  const needed = spec.modules.some(({ stops }) => stops.some(({ remedy }) => remedy.kind === 'crew'));
  if (needed && spec.crew.duty.every(({ minders }) => minders === 0)) {
    return ['Nobody minds the loop: a module that needs a minder stays stopped for the rest of the show.'];
  }
  return [];
}
