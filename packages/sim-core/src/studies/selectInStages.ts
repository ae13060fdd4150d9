import {
  areAlike,
  isRare,
  type Moments,
  momentsOf,
  rinottConstant,
  rinottSecondStage,
  subsetIndependent,
} from '../statistics/index.js';
import { nothingMeasured, type Selected, type SelectionTask } from './selectionTask.js';

/** Replication numbers of one system: those of the next begin so much later. */
const APART = 1_000_000;

/** Selection in two stages, each with luck of its own (Rinott), and what is left when the shows do not suffice. */
export async function selectInStages(task: SelectionTask): Promise<Selected> {
  const { study, systems, on, sign, cap, firstLook, confidence, certain, zoneOf } = task;
  const asked = systems.map(() => 0);
  const values: number[][] = systems.map(() => []);
  /** Goes on with one system until it has so many values, or its shows run out. */
  const collect = async (i: number, wanted: number): Promise<void> => {
    const one = systems[i];
    const column = values[i];
    if (one === undefined || column === undefined) return;
    while (column.length < wanted) {
      const done = asked[i] ?? 0;
      const many = Math.min(wanted - column.length, cap - done);
      if (many === 0) return;
      const from = i * APART + done;
      await study.simulate([one], many, from);
      column.push(...study.column(one, on, many, from).filter(Number.isFinite));
      asked[i] = done + many;
    }
  };

  const all = systems.map((_, i) => i);
  /** Values that are all alike, and too few for that to be known, say nothing of the spread: the first look goes on. */
  const tooAlike = ({ count, mean, variance }: Moments): boolean =>
    !certain && areAlike(variance, Math.abs(mean)) && !isRare(count, confidence);
  for (const i of all) {
    study.expect(systems.slice(i, i + 1), cap * (systems.length - i), i * APART);
    await collect(i, firstLook);
    if ((values[i]?.length ?? 0) < firstLook) nothingMeasured(on, cap, firstLook);
    while (tooAlike(momentsOf(values[i] ?? [])) && (asked[i] ?? 0) < cap)
      await collect(i, (values[i]?.length ?? 0) + 1);
  }
  const zone = zoneOf(values.map((column) => [...column]));
  const droppedAfter = new Map<number, number>();
  const known = { values, droppedAfter, zone, firstLook: Math.max(...values.map(({ length }) => length)) };
  const leftOut = (): number => all.reduce((sum, i) => sum + (asked[i] ?? 0) - (values[i]?.length ?? 0), 0);
  if (zone === 0) return { ...known, left: all, promised: 1, enough: null, leftOut: leftOut() };

  const h = constantOf(systems.length, firstLook, confidence);
  const sds = values.map((column) => Math.sqrt(momentsOf(column).variance));
  const sizes = rinottSecondStage({ n0: firstLook, h, delta: zone, sds });
  for (const [i, size] of sizes.entries()) {
    const left = sizes.slice(i).reduce((sum, one) => sum + Math.min(one, cap) - firstLook, 0);
    study.expect(systems.slice(i, i + 1), left, i * APART + (asked[i] ?? 0));
    await collect(i, size);
  }
  const moments = values.map((column) => momentsOf(column.map((x) => sign * x)));
  const common = {
    ...known,
    promised: confidence,
    enough: Math.max(...sizes),
    leftOut: leftOut(),
  };
  const complete =
    sizes.every((size, i) => (values[i]?.length ?? 0) >= size) && !moments.some((one) => tooAlike(one));
  if (complete) {
    const best = all.reduce((a, b) => ((moments[b]?.mean ?? NaN) > (moments[a]?.mean ?? NaN) ? b : a), 0);
    return { ...common, left: [best] };
  }
  const left = subsetIndependent(moments, confidence, certain);
  for (const i of all) if (!left.includes(i)) droppedAfter.set(i, values[i]?.length ?? 0);
  return { ...common, left };
}

/** The constants worked out so far: the double integral takes a tenth of a second. */
const CONSTANTS = new Map<string, number>();

function constantOf(k: number, n0: number, pStar: number): number {
  const key = `${k} ${n0} ${pStar}`;
  const h = CONSTANTS.get(key) ?? rinottConstant(k, n0, pStar);
  CONSTANTS.set(key, h);
  return h;
}
