import type { RoughCut } from '../estimates/index.js';
import type { ModuleEstimates, RunResult } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';

/** Minders busier than this have little left for a bad moment. */
const BUSY = 0.6;

/** A basket that floods so soon has no room to speak of. */
const NEARLY_FULL_SECONDS = 15;

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

/** The modules that spill most, most first. */
export function worstSpillers(result: RunResult, most: number): ModuleEstimates[] {
  return result.modules
    .filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) > 0)
    .toSorted((a, b) => (b.spills_per_hour.mean ?? 0) - (a.spills_per_hour.mean ?? 0))
    .slice(0, most);
}

type Cause = keyof ModuleEstimates['spills_by_cause_per_hour'];

/** The modules with a twentieth of the spills or more, one sentence for each main cause. */
function spillAdvice(result: RunResult, rough: RoughCut): string[] {
  const total = result.spills_per_hour.mean ?? 0;
  const byCause = new Map<Cause, ModuleEstimates[]>();
  for (const module of worstSpillers(result, 6)) {
    if ((module.spills_per_hour.mean ?? 0) < 0.05 * total) continue;
    const cause = mainCause(module);
    byCause.set(cause, [...(byCause.get(cause) ?? []), module]);
  }
  return [...byCause].map(([cause, modules]) => spillSentence(cause, modules, result, rough));
}

function mainCause({ spills_by_cause_per_hour: causes }: ModuleEstimates): Cause {
  const names: readonly Cause[] = ['module_stopped', 'backlog_of_stop', 'inflow'];
  return names.reduce(
    (most, name) => ((causes[name].mean ?? 0) > (causes[most].mean ?? 0) ? name : most),
    'module_stopped',
  );
}

function spillSentence(
  cause: Cause,
  modules: readonly ModuleEstimates[],
  result: RunResult,
  rough: RoughCut,
): string {
  const spills = modules.reduce((sum, module) => sum + (module.spills_per_hour.mean ?? 0), 0);
  const one = modules.length === 1;
  const who = listing(modules.map(({ id }) => id));
  const intro = `${who} ${one ? 'spills' : 'spill'} ${formatNumber(spills)} of the ${formatNumber(result.spills_per_hour.mean ?? 0)} balls an hour`;
  switch (cause) {
    case 'module_stopped': {
      const floods = modules.flatMap(
        ({ id }) => rough.modules.find((module) => module.id === id)?.floodsAfterSeconds ?? [],
      );
      const soonest = Math.min(...floods);
      const flood =
        soonest < NEARLY_FULL_SECONDS
          ? `; ${one ? 'its basket stands' : 'one of their baskets stands'} nearly full even without a stop`
          : soonest < Infinity
            ? `; ${one ? 'its basket is' : 'their baskets are'} full about ${formatSeconds(soonest)} after a stop begins`
            : '';
      const clear = result.crew.time_to_clear_s.mean;
      const wait =
        clear === null ? '' : `, and a stop lasts ${formatSeconds(clear)} on average, some much longer`;
      return `${intro}, mostly while ${one ? 'it stands' : 'they stand'} still${flood}${wait}. Get there sooner, give ${one ? 'it a bigger basket' : 'them bigger baskets'}, mend what stops ${one ? 'it' : 'them'}, or keep ${one ? 'it' : 'them'} off the loop.`;
    }
    case 'backlog_of_stop':
      return `${intro}, mostly on the crowd of balls that a stop has left. A bigger basket or a quicker cycle there would work the crowd off.`;
    case 'inflow':
      return `${intro}, mostly because more balls come than ${one ? 'it takes' : 'they take'} in. Look upstream for a stop that lets a crowd loose, take balls out, or give ${one ? 'it a bigger basket' : 'them bigger baskets'}.`;
  }
}

/** "a", "a and b", "a, b and c". */
function listing(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
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
  if (
    spec.supply.kind === 'charge' &&
    spec.crew.sweep === undefined &&
    (result.spills_per_hour.mean ?? 0) > 0
  ) {
    return [
      'Nobody picks balls up from the floor in this file, so the loop goes on with fewer after each spill. Add a sweep to the crew section if somebody does.',
    ];
  }
  const needed = spec.modules.some(({ stops }) => stops.some(({ remedy }) => remedy.kind === 'crew'));
  if (needed && spec.crew.duty.every(({ minders }) => minders === 0)) {
    return ['Nobody minds the loop: a module that needs a minder stays stopped for the rest of the show.'];
  }
  return [];
}
