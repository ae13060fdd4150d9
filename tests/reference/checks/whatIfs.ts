import { CLEARED } from '../../../packages/sim-core/src/model/eventClass.js';
import { type LoopView, simulate } from '../../../packages/sim-core/src/model/index.js';
import { type CheckGroup, exactly, setAside } from '../check.js';
import { at, SEED, spills } from '../measure.js';
import { param, quantitiesOf, setsParam } from '../published.js';
import { basket, chain, constant, freesItself, fromTheStart, machine } from '../specs.js';

/** Regular arrivals at a machine that stands still for a while with some balls in its basket. */
interface Stop {
  /** Balls arriving and balls taken in a second. */
  readonly arriving: number;
  readonly taking: number;
  readonly capacity: number;
  /** Balls in the basket when the machine stops. */
  readonly balls: number;
  /** How long it stands still. */
  readonly seconds: number;
}

const FLUID = 'the same with water instead of balls';

/**
 * A chain begins with an empty basket, so the machine is stopped from the opening on, earlier by the time in which the
 * wanted balls arrive: the arrivals are at half intervals, so at that moment their number is exactly in the basket, and
 * the next one is half an interval away, as published. From there on it is the published case, and counted from there.
 *
 * @returns first spill, balls spilled during the stop and after it, balls in the basket at the restart, and the time from
 * the restart until the basket is back at its level; as the published values are listed
 */
function play(stop: Stop): number[] {
  const { arriving, taking, capacity, balls } = stop;
  const begins = balls / arriving;
  const ends = begins + stop.seconds;
  const module = machine(constant(1 / taking), {
    basket: basket(capacity),
    stops: [freesItself({ kind: 'at', times: [0] }, constant(ends))],
  });
  const feed = { every: constant(1 / arriving), first: 0.5 / arriving };
  const spec = chain(feed, [module], fromTheStart(ends + lastingSeconds(stop)));
  let surge = NaN;
  let back = Infinity;
  const observe = (view: LoopView): void => {
    // The take that ends the stop belongs to the restart: what lay in the basket before it is the surge.
    if (view.eventClass === CLEARED) surge = view.level(0) + view.held(0);
    else if (view.now > ends && view.level(0) <= balls && back === Infinity) back = view.now - ends;
  };
  const result = simulate(spec, { seed: SEED, observe });
  const during = at(result.modules.spillsWhileStopped, 0);
  return [result.firstSpill - begins, during, spills(result) - during, surge, back];
}

/** Twice as long after the stop as the surge needs to drain. */
function lastingSeconds({ capacity, taking, arriving }: Stop): number {
  return (2 * capacity) / (taking - arriving);
}

function group(id: string, stop: Stop, names: readonly string[]): CheckGroup {
  const shift = stop.balls / stop.arriving;
  const seconds = Number((shift + stop.seconds + lastingSeconds(stop)).toPrecision(4));
  const remark =
    stop.balls > 0 ? `basket filled before the stop, clock set to 0 after ${shift.toFixed(3)} s` : '';
  return exactly(id, { seconds, quantities: names, values: () => play(stop), remark });
}

/** The case with several sets of numbers: [inflow, take rate, capacity, balls at the start, length of the stop]. */
export function whatIfs(id: string): CheckGroup[] {
  const quantities = quantitiesOf(id);
  const fluid = quantities.filter((name) => name.includes('fluid'));
  const groups = setsParam(id, 'sets').map((set) => {
    const [arriving, taking, capacity, balls, seconds] = [
      at(set, 0),
      at(set, 1),
      at(set, 2),
      at(set, 3),
      at(set, 4),
    ];
    const title = `r=${arriving.toFixed(1)} mu=${taking} C=${capacity} B0=${balls} d=${seconds.toFixed(1)}: `;
    const names = quantities.filter((name) => name.startsWith(title) && !fluid.includes(name));
    return group(id, { arriving, taking, capacity, balls, seconds }, names);
  });
  return [setAside(id, 'formula', FLUID, fluid), ...groups];
}

/** The case with one set of numbers. */
export function whatIf(id: string): CheckGroup[] {
  const quantities = quantitiesOf(id);
  const fluid = quantities.filter((name) => name.includes('fluid'));
  const stop = {
    arriving: param(id, 'r'),
    taking: param(id, 'mu'),
    capacity: param(id, 'C'),
    balls: param(id, 'B0'),
    seconds: param(id, 'd'),
  };
  const names = quantities.filter((name) => !fluid.includes(name));
  return [setAside(id, 'formula', FLUID, fluid), group(id, stop, names)];
}
