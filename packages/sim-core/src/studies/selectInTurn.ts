import { areAlike, isRare, kimNelson, momentsOf, subsetPaired } from '../statistics/index.js';
import { nothingMeasured, type Selected, type SelectionTask } from './selectionTask.js';

/** Shows asked for at once, about, so that all workers have something to do; the number does not depend on them. */
const AT_ONCE = 8;

/** Selection in turn with the same luck for all (Kim and Nelson), and what is left when the shows run out. */
export async function selectInTurn(task: SelectionTask): Promise<Selected> {
  const { study, systems, on, sign, cap, firstLook, confidence, certain, zoneOf } = task;
  const all = systems.map((_, i) => i);
  let asked = 0;
  let leftOut = 0;
  /** The next shows of these; those in which one has nothing to measure are left out for all. */
  const next = async (inPlay: readonly number[], count: number, most: number): Promise<number[][]> => {
    const some = inPlay.flatMap((i) => systems[i] ?? []);
    const many = Math.min(count, cap - asked);
    study.expect(some, Math.min(most, cap) - asked, asked);
    await study.simulate(some, many, asked);
    const columns = some.map((one) => study.column(one, on, many, asked));
    asked += many;
    const rows = Array.from({ length: many }, (_, r) => columns.map((column) => column[r] ?? NaN));
    const kept = rows.filter((row) => row.every(Number.isFinite));
    leftOut += many - kept.length;
    return kept;
  };

  const first: number[][] = [];
  for (let wanted = firstLook; ; wanted = first.length + 1) {
    first.push(...(await next(all, wanted - first.length, cap)));
    // Two that differ by the same in so few shows say nothing of their spread: the first look goes on.
    if (first.length >= firstLook && (certain || !tooAlike(first, confidence))) break;
    if (asked < cap) continue;
    if (first.length < firstLook) nothingMeasured(on, cap, firstLook);
    break;
  }
  const values: number[][] = all.map(() => []);
  const droppedAfter = new Map<number, number>();
  const zone = zoneOf(all.map((i) => first.map((row) => row[i] ?? NaN)));
  const known = { values, droppedAfter, zone, firstLook: first.length };
  if (zone === 0) {
    for (const row of first) for (const i of all) values[i]?.push(row[i] ?? NaN);
    return { ...known, left: all, promised: 1, enough: null, leftOut };
  }

  if (!certain && tooAlike(first, confidence)) {
    for (const row of first) for (const i of all) values[i]?.push(row[i] ?? NaN);
    const columns = values.map((column) => column.map((x) => sign * x));
    const left = subsetPaired(columns, confidence, false);
    for (const i of all) if (!left.includes(i)) droppedAfter.set(i, first.length);
    return { ...known, left, promised: confidence, enough: null, leftOut };
  }
  const selection = kimNelson({ k: systems.length, n0: first.length, alpha: 1 - confidence, delta: zone });
  let rows = first;
  let among: readonly number[] = all;
  for (;;) {
    for (const row of rows) {
      if (selection.finished) break;
      const before = selection.inPlay;
      const seen = before.map((i) => row[among.indexOf(i)] ?? NaN);
      for (const [place, i] of before.entries()) values[i]?.push(seen[place] ?? NaN);
      selection.observe(seen.map((x) => sign * x));
      for (const i of before) if (!selection.inPlay.includes(i)) droppedAfter.set(i, selection.replications);
    }
    if (selection.finished || asked === cap) break;
    among = selection.inPlay;
    rows = await next(among, Math.ceil(AT_ONCE / among.length), selection.longestReplications ?? cap);
  }
  const common = { ...known, leftOut, enough: selection.longestReplications };
  const { inPlay } = selection;
  if (selection.finished) return { ...common, left: inPlay, promised: confidence };
  const columns = inPlay.map((i) => (values[i] ?? []).map((x) => sign * x));
  const left = subsetPaired(columns, confidence, certain).flatMap((place) => inPlay[place] ?? []);
  for (const i of inPlay) if (!left.includes(i)) droppedAfter.set(i, selection.replications);
  // Either step may have dropped the best: the one on the way, and the last look.
  return { ...common, left, promised: Number((2 * confidence - 1).toFixed(12)) };
}

/** Whether two of the systems differ by the same in all shows, and there are too few of these for that to be known. */
function tooAlike(rows: readonly (readonly number[])[], confidence: number): boolean {
  if (isRare(rows.length, confidence)) return false;
  const size = Math.max(...rows.flat().map(Math.abs));
  const [first = []] = rows;
  return first.some((_, i) =>
    first.some(
      (__, j) =>
        i < j && areAlike(momentsOf(rows.map((row) => (row[i] ?? NaN) - (row[j] ?? NaN))).variance, size),
    ),
  );
}
