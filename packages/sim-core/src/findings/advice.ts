import { floodSeconds, type RoughCut } from '../estimates/index.js';
import type { ModuleEstimates, RunResult } from '../experiments/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';
import { boxAdvice } from './box.js';
import { heldUpAdvice } from './heldUp.js';
import { listing } from './listing.js';
import { lock } from './lock.js';
import { briefPhrase, KINDS } from './phrase.js';
import { pullAdvice } from './pulls.js';
import { sentBack } from './sentBack.js';
import { standstill } from './standstill.js';
import { unattended } from './unattended.js';

/** Minders busier than this have little left for a bad moment. */
const BUSY = 0.6;
/** A basket that floods so soon has no room to speak of. */
const NEARLY_FULL_SECONDS = 15;
/** A loop that locks in more shows than this flows badly for that reason. */
const OFTEN = 0.2;
/** With fewer shows, that nothing was seen says little. */
const FEW_SHOWS = 20;

/**
 * What to do about what a run showed: at most four sentences, most urgent first. Each names the figures it rests on; none
 * promises an effect, which only another run can show.
 *
 * @example
 * advice(exampleResult, exampleLoop, roughCut(exampleLoop))[0].length > 0 // => true
 */
export function advice(result: RunResult, spec: LoopSpec, rough: RoughCut): string[] {
  const moved = sentBack(result, spec);
  const found = [
    ...lockAdvice(result),
    ...standstillAdvice(spec),
    ...dutyAdvice(spec),
    ...flowAdvice(result, spec, rough),
    ...heldUpAdvice(result, spec),
    ...spillAdvice(
      result,
      spec,
      rough,
      moved.map(({ at }) => at),
    ),
    ...moved.map(({ advice: sentence }) => sentence),
    ...pullAdvice(result, spec),
    ...boxAdvice(result, spec),
    ...chargeAdvice(result, spec, rough),
    ...crewAdvice(result, spec),
  ];
  if (found.length > 0) return found.slice(0, 4);
  if (result.replications < FEW_SHOWS) {
    return [
      `Nothing stands out, but ${result.replications === 1 ? 'one show is' : `${result.replications} shows are`} too few to say so: run at least 100.`,
    ];
  }
  return [
    'Nothing here calls for a change. To see how much it can bear, lengthen the stops or add balls in the file and run it again.',
  ];
}

/** The modules that spill most, most first. */
export function worstSpillers(result: RunResult, most: number): ModuleEstimates[] {
  return result.modules
    .filter(({ spills_per_hour: spills }) => (spills.mean ?? 0) > 0)
    .toSorted((a, b) => (b.spills_per_hour.mean ?? 0) - (a.spills_per_hour.mean ?? 0))
    .slice(0, most);
}

function lockAdvice(result: RunResult): string[] {
  const found = lock(result);
  return found === undefined ? [] : [`${found.statement}. ${found.remedy}`];
}

function standstillAdvice(spec: LoopSpec): string[] {
  const stand = standstill(spec);
  return stand === undefined ? [] : [`${stand}. Add balls, or let modules start at fewer.`];
}

function dutyAdvice(spec: LoopSpec): string[] {
  const gap = unattended(spec);
  return gap === undefined
    ? []
    : [
        `${gap}: a module that needs a minder then stays stopped. Change the crew section, or keep such modules off the loop at that time.`,
      ];
}

function flowsBadly(flow: number, rough: RoughCut): boolean {
  return flow < 0.8 * rough.flowBps;
}

/** A flow far below what was reckoned has a reason: balls lying on the floor, or a module that stands still for long. */
function flowAdvice(result: RunResult, { supply, crew }: LoopSpec, rough: RoughCut): string[] {
  const flow = result.throughput_bps.mean ?? 0;
  // A loop that often locks has its reason already.
  if (!flowsBadly(flow, rough) || (result.locked.show.mean ?? 0) > OFTEN) return [];
  const start = `${flow === 0 ? 'No balls' : `Only ${briefPhrase(result.throughput_bps, KINDS.bps)}`} pass the counter; without chance it would be about ${formatNumber(rough.flowBps)} bps.`;
  const charge = result.scenario.charge_balls;
  const { floor, lost } = result.series.balls_by_place;
  const down = (floor.at(-1)?.mean ?? 0) + (lost.at(-1)?.mean ?? 0);
  if (supply.kind === 'charge' && down > 0.1 * charge) {
    const [leaky] = result.modules.toSorted(
      (a, b) => (b.leaks_per_hour.mean ?? 0) - (a.leaks_per_hour.mean ?? 0),
    );
    const leak =
      leaky && (leaky.leaks_per_hour.mean ?? 0) > 0
        ? `; ${leaky.id} leaks most, ${briefPhrase(leaky.leaks_per_hour, KINDS.ballsPerHour)}`
        : '';
    return [
      `${start} At closing time about ${formatNumber(down)} of ${charge} balls lie on the floor or are lost${leak}. Mend what loses them, or ${crew.sweep ? 'sweep more often' : 'let somebody sweep them up (a sweep in the crew section)'}.`,
    ];
  }
  const [still] = result.modules.toSorted(
    (a, b) => (b.stopped_share.mean ?? 0) - (a.stopped_share.mean ?? 0),
  );
  if (still && (still.stopped_share.mean ?? 0) > 0.05) {
    return [
      `${start} ${still.id} stands still ${briefPhrase(still.stopped_share, KINDS.share)} of the time, more than any other: everything behind it waits for balls meanwhile.`,
    ];
  }
  return [];
}

/** Held up for more than this share of the time, a module that gets more than it takes gets it because of that. */
const HELD_UP = 0.01;
/** Most modules named for one cause of spills. */
const MOST_SPILLERS = 6;

type Cause = keyof ModuleEstimates['spills_by_cause_per_hour'];

/**
 * The modules that make up the bulk of the spills, one sentence for each main cause; or a word when no few do.
 *
 * @param told ids of modules whose spills another sentence explains
 */
function spillAdvice(result: RunResult, spec: LoopSpec, rough: RoughCut, told: readonly string[]): string[] {
  const total = result.spills_per_hour.mean ?? 0;
  const [first, ...rest] = worstSpillers(result, MOST_SPILLERS).filter(
    ({ spills_per_hour: spills }) => (spills.mean ?? 0) >= 0.05 * total,
  );
  const named = first ? [first, ...rest] : [];
  const together = named.reduce((sum, { spills_per_hour: spills }) => sum + (spills.mean ?? 0), 0);
  if (total === 0) return [];
  if (together < 0.3 * total) return [spreadSentence(result)];
  const byCause = new Map<Cause, ModuleEstimates[]>();
  for (const module of named.filter(({ id }) => !told.includes(id))) {
    const cause = mainCause(module);
    byCause.set(cause, [...(byCause.get(cause) ?? []), module]);
  }
  return [...byCause].map(([cause, modules]) =>
    spillSentence(cause, modules, result, floodsOf(modules, spec, rough)),
  );
}

function spreadSentence(result: RunResult): string {
  const spilling = worstSpillers(result, Infinity);
  const [most] = spilling;
  const at = most ? ` (most at ${most.id}, ${briefPhrase(most.spills_per_hour, KINDS.ballsPerHour)})` : '';
  return `Spills are spread over ${spilling.length} baskets, and no few of them stand out${at}: it is the loop as a whole. Fewer balls, quicker minders, or fewer stops everywhere.`;
}

function mainCause({ spills_by_cause_per_hour: causes }: ModuleEstimates): Cause {
  const names: readonly Cause[] = ['module_stopped', 'backlog_of_stop', 'inflow'];
  return names.reduce(
    (most, name) => ((causes[name].mean ?? 0) > (causes[most].mean ?? 0) ? name : most),
    'module_stopped',
  );
}

/**
 * How long after a stop begins each basket is full that can be: from the level at or below which it stood half of the time,
 * with as many balls coming as when nothing else stands still.
 */
function floodsOf(modules: readonly ModuleEstimates[], spec: LoopSpec, rough: RoughCut): number[] {
  return modules.flatMap(({ id, level_p50: usual }) => {
    const m = spec.modules.findIndex((module) => module.id === id);
    const { floodsAfterSeconds = Infinity, inflowBps = 0 } = rough.modules[m] ?? {};
    if (floodsAfterSeconds === Infinity || usual.mean === null) return [];
    const capacity = spec.modules[m]?.basket.capacity ?? Infinity;
    return floodSeconds({ capacity, level: usual.mean, inflowBps });
  });
}

function spillSentence(
  cause: Cause,
  modules: readonly ModuleEstimates[],
  result: RunResult,
  floods: readonly number[],
): string {
  const one = modules.length === 1;
  const spills = modules.reduce((sum, module) => sum + (module.spills_per_hour.mean ?? 0), 0);
  const share = formatShare(Math.round((100 * spills) / (result.spills_per_hour.mean ?? NaN)) / 100);
  const who = listing(
    modules.map(({ id }) => id),
    MOST_SPILLERS,
  );
  const intro = `${who} ${one ? 'spills' : 'spill'} about ${share} of the balls that fall`;
  const basket = one ? 'it a bigger basket' : 'them bigger baskets';
  const soonest = Math.min(...floods);
  const latest = Math.max(...floods);
  switch (cause) {
    case 'module_stopped': {
      const flood =
        soonest < NEARLY_FULL_SECONDS
          ? `; ${one ? 'its basket stands' : 'one of their baskets stands'} nearly full even without a stop`
          : soonest < Infinity
            ? `; ${one ? 'its basket is' : 'their baskets are'} full about ${soonest === latest ? formatSeconds(soonest) : `${formatSeconds(soonest)} to ${formatSeconds(latest)}`} after a stop begins`
            : '';
      const clear = result.crew.time_to_clear_s;
      const wait =
        clear.mean === null
          ? ''
          : `, and a stop lasts ${briefPhrase(clear, KINDS.time)} on average, some much longer`;
      return `${intro}, mostly while ${one ? 'it stands' : 'they stand'} still${flood}${wait}. Get there sooner, give ${basket}, mend what stops ${one ? 'it' : 'them'}, or keep ${one ? 'it' : 'them'} off the loop.`;
    }
    case 'backlog_of_stop':
      return `${intro}, mostly on the crowd of balls that ${one ? 'its' : 'their'} own stops have left. A bigger basket or a quicker cycle would work the crowd off.`;
    case 'inflow': {
      const fewer = result.scenario.shape === 'loop' ? 'take balls out' : 'feed fewer';
      if (modules.every(({ held_up_share: heldUp }) => (heldUp.mean ?? 0) > HELD_UP))
        return `${intro}, mostly because more balls come than ${one ? 'it lets' : 'they let'} go: ${one ? 'it is' : 'they are'} held up from downstream. Look there first, ${fewer}, or give ${basket}.`;
      return `${intro}, mostly because more balls come than ${one ? 'it takes' : 'they take'} in. Look upstream for a stop that lets a crowd loose, ${fewer}, or give ${basket}.`;
    }
  }
}

/** What a full basket does. */
const FULL_WORDS = {
  spill: 'runs over',
  back_up: 'is full and holds up what comes before it',
  return: 'is full and sends balls back',
} as const;

function chargeAdvice(result: RunResult, spec: LoopSpec, rough: RoughCut): string[] {
  if (spec.supply.kind !== 'charge') return [];
  const charge = result.scenario.charge_balls;
  const slowest = rough.modules[rough.slowest];
  if (slowest === undefined) return [];
  if (charge > rough.mostBalls) {
    const then = FULL_WORDS[spec.modules[rough.slowest]?.basket.whenFull.kind ?? 'spill'];
    return [
      `${charge} balls are more than the loop carries: above about ${rough.mostBalls} the basket of ${slowest.id}, the slowest module, ${then} even on a good day. Take some out.`,
    ];
  }
  const flow = result.throughput_bps.mean ?? 0;
  const calm =
    (result.spills_per_hour.mean ?? 0) === 0 &&
    result.modules.every(
      ({ held_up_share: heldUp, returned_per_hour: returned }) =>
        (heldUp.mean ?? 0) === 0 && (returned.mean ?? 0) === 0,
    );
  if (
    calm &&
    !flowsBadly(flow, rough) &&
    flow > 0 &&
    rough.surplusBalls === 0 &&
    flow < 0.95 * slowest.capacityBps
  ) {
    return [
      `No basket runs over, and there is room for more balls: ${briefPhrase(result.throughput_bps, KINDS.bps)} pass, and ${slowest.id}, the slowest module, could pass ${formatNumber(slowest.capacityBps)} bps.`,
    ];
  }
  return [];
}

function crewAdvice(result: RunResult, spec: LoopSpec): string[] {
  const { busy_share: busy, jobs_waiting: waiting } = result.crew;
  if (busy.mean !== null && busy.mean > BUSY) {
    return [
      `The minders are busy ${briefPhrase(busy, KINDS.share)} of their time and ${briefPhrase(waiting, KINDS.plain)} jobs wait on average: one more minder, or fewer stops, is worth a run.`,
    ];
  }
  if (
    spec.supply.kind === 'charge' &&
    spec.crew.sweep === undefined &&
    spec.crew.topUp === undefined &&
    (result.spills_per_hour.mean ?? 0) > 0
  ) {
    return [
      'Nobody picks balls up from the floor in this file, so the loop goes on with fewer after each spill. Add a sweep to the crew section if somebody does.',
    ];
  }
  return [];
}
