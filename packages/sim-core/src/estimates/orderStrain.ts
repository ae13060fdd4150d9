import { buildDistribution } from '../distributions/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { roughCut } from './roughCut.js';

/** What the strain of an order is reckoned from, module by module. */
interface Strained {
  readonly runningBps: number;
  readonly stopsPerSecond: number;
  readonly stopSeconds: number;
  readonly capacity: number;
  /** Balls it lets go together when nothing comes in lumps. */
  readonly gathered: number;
  readonly batch: number;
  readonly crowded: { readonly above: number; readonly times: number };
  /** Seconds from a stop of the next module until its lever is set; undefined without a lever that watches the next one. */
  readonly leverSeconds: number | undefined;
}

/** A surge that is hardly above the flow fills no basket. */
const FAINT = 1.01;
/** Nothing drains for longer than this, in seconds: something else comes in between. */
const LONGEST = 1800;
/** Stops are noticed about so late, in seconds, for a lever; the reckoning needs no more than the size of it. */
const NOTICED = 15;
/** The real flow is below what can be reckoned without chance by about so much. */
const REAL_FLOW = 0.9;

/**
 * A rough figure for what an order does to its baskets, for telling orders apart before any is simulated: balls spilled per
 * hour by a reckoning that leaves out nearly all of chance. Only its differences between orders of the same modules mean
 * anything, and not much.
 *
 * After a stop a module works off what has gathered: downstream that is a surge, which piles up in front of every module
 * that is slower than it, and goes on at that module's rate (fluid limit). What stands in a basket on average is what its
 * own stops, the surges from upstream and the lumps of the module before it leave there; a stop spills what comes during it
 * beyond the room that is left, with both taken as exponential.
 *
 * @param spec a loop or chain; its order does not matter
 * @returns a function from an order, as indexes of modules in the spec, to its strain
 * @example
 * const strain = orderStrain(exampleLoop);
 * strain([0, 1]) >= 0 // => true
 */
export function orderStrain(spec: LoopSpec): (order: readonly number[]) => number {
  const rough = roughCut(spec);
  const flow = REAL_FLOW * rough.flowBps;
  const closed = spec.supply.kind === 'charge';
  const count = spec.modules.length;
  const modules = spec.modules.map((module, m): Strained => {
    const figures = rough.modules[m];
    const runningBps = figures?.runningBps ?? 0;
    const crowded = module.stops.reduce(
      (worst, { crowded: one }) => (one && one.times > worst.times ? one : worst),
      { above: 1, times: 1 },
    );
    return {
      runningBps,
      stopsPerSecond: (figures?.stopsPerHour ?? 0) / 3600,
      stopSeconds: figures?.meanStopSeconds ?? 0,
      capacity: Math.min(module.basket.capacity, 1e6),
      gathered:
        module.drive.kind === 'demand' ? module.drive.startAt : flow * buildDistribution(module.cycle).mean,
      batch: module.batch * module.catch,
      crowded,
      // A loop does not tell whether the file names the next module or means whichever is next; the latter is usual.
      leverSeconds:
        module.lever?.watches.length === 1 && module.lever.watches[0] === (m + 1) % count
          ? NOTICED + buildDistribution(module.lever.takes).mean
          : undefined,
    };
  });
  return (order) => {
    const line = order.flatMap((m) => modules[m] ?? []);
    const standing = standingBalls(line, flow, closed);
    return (
      3600 *
      line.reduce((sum, module, place) => {
        const stands = standing[place] ?? 0;
        const { leverSeconds = Infinity } = before(line, place, closed);
        const own = spilled(module, Math.min(module.stopSeconds, leverSeconds), stands, flow);
        const next = line[(place + 1) % line.length];
        if (module.leverSeconds === undefined || next === undefined) return sum + own;
        // What its lever keeps back from a stopped module gathers before its own.
        const seconds = Math.max(0, next.stopSeconds - module.leverSeconds);
        const kept = { ...module, stopsPerSecond: next.stopsPerSecond, crowded: NEVER_CROWDED };
        return sum + own + spilled(kept, seconds, stands, flow);
      }, 0)
    );
  };
}

const NEVER_CROWDED = { above: 1, times: 1 };

function before(line: readonly Strained[], place: number, closed: boolean): Partial<Strained> {
  return line[place - 1] ?? (closed ? line.at(-1) : undefined) ?? {};
}

/** Balls that stand in each basket on average because of stops upstream, its own, and lumps. */
function standingBalls(line: readonly Strained[], flow: number, closed: boolean): number[] {
  const standing = lumps(line, closed).map((lump) => lump / 2);
  for (const [from, { runningBps, stopsPerSecond, stopSeconds, capacity }] of line.entries()) {
    if (stopsPerSecond === 0 || stopSeconds === 0) continue;
    const gathered = Math.min(capacity, flow * stopSeconds);
    let rate = runningBps;
    let lasts = drain(gathered, rate - flow);
    standing[from] = (standing[from] ?? 0) + (stopsPerSecond * gathered * (stopSeconds + lasts)) / 2;
    const most = closed ? line.length - 1 : line.length - 1 - from;
    for (let step = 1; step <= most && rate > FAINT * flow; step++) {
      const to = (from + step) % line.length;
      const next = line[to];
      if (next === undefined || next.runningBps >= rate) continue;
      const piled = Math.min(next.capacity, (rate - next.runningBps) * lasts);
      const longer = drain(piled, next.runningBps - flow);
      standing[to] = (standing[to] ?? 0) + (stopsPerSecond * piled * (lasts + longer)) / 2;
      rate = next.runningBps;
      lasts = Math.min(LONGEST, lasts + longer);
    }
  }
  return standing;
}

function drain(balls: number, spareBps: number): number {
  return spareBps > 0 ? Math.min(LONGEST, balls / spareBps) : LONGEST;
}

/** Balls that come to each basket together. */
function lumps(line: readonly Strained[], closed: boolean): number[] {
  let arriving = 1;
  const pass = (): number[] =>
    line.map(({ batch, gathered }) => {
      const came = arriving;
      arriving = Math.max(1, Math.min(batch, Math.max(arriving, gathered)));
      return came;
    });
  const first = pass();
  // Twice round a loop: the second time what comes to the first module is known.
  return closed ? pass() : first;
}

/** Balls spilled per second by stops, with what comes in so many seconds and what stands there both exponential. */
function spilled(
  { stopsPerSecond, capacity, crowded }: Strained,
  seconds: number,
  standing: number,
  flow: number,
): number {
  const during = flow * seconds;
  if (stopsPerSecond === 0 || during === 0) return 0;
  const more = 1 + (crowded.times - 1) * Math.exp((-crowded.above * capacity) / Math.max(standing, 1e-9));
  const other = Math.abs(standing - during) < 1e-3 * during ? during * (1 + 1e-3) : standing;
  // The mean of what a sum of two exponentials exceeds the room by.
  const part = (mean: number): number => (mean > 0 ? mean * mean * Math.exp(-capacity / mean) : 0);
  return (stopsPerSecond * more * (part(during) - part(other))) / (during - other);
}
