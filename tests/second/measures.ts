import type { LoopSpec, simulate } from '../../packages/sim-core/src/index.js';
import { type PlaceBooks, type Tally } from './books.js';
import type { Table } from './table.js';

/** What a show has come to, by name; NaN where there was nothing to measure. */
export type Measures = ReadonlyMap<string, number>;

/** Measures of one module: [name, what the second simulation counted, what the simulator counted]. */
type Column = readonly [
  name: string,
  plain: (books: PlaceBooks, own: Tally, measured: number) => number,
  core: keyof ReturnType<typeof simulate>['modules'],
];

const COLUMNS: readonly Column[] = [
  ['handed on', (books) => books.handedOn, 'handedOn'],
  ['returned', (books) => books.returned, 'returned'],
  ['sent back', (books) => books.sentBack, 'recirculated'],
  ['leaks', (books) => books.leaks, 'leaks'],
  ['dropped', (books) => books.dropped, 'dropped'],
  ['spills while stopped', (books) => books.spillsWhileStopped, 'spillsWhileStopped'],
  ['spills on backlog', (books) => books.spillsOnBacklog, 'spillsOnBacklog'],
  ['spills on inflow', (books) => books.spillsOnInflow, 'spillsOnInflow'],
  ['level', (books, _, measured) => books.levelArea / measured, 'levelMean'],
  ['stops', (_, own) => own.stops, 'stops'],
  ['stopped share', (_, own, measured) => own.stopped / measured, 'stoppedShare'],
  ['held-up share', (_, own, measured) => own.heldUp / measured, 'heldUpShare'],
  ['pulled share', (_, own, measured) => (measured - own.inLoop) / measured, 'pulledShare'],
  ['pulls', (books) => books.pulls, 'pulls'],
];

/** A set of places as one number. */
const asNumber = (places: readonly number[]): number => places.reduce((sum, at) => sum + 2 ** at, 0);

/** What the second simulation has measured. */
export function measuresOfTable(t: Table): Measures {
  const { books } = t;
  const measured = t.end - books.from;
  const all = new Map<string, number>([
    ['passes', books.passes],
    ['laps', books.laps.count],
    ['lap', books.laps.sum / books.laps.count / 1e9],
    ['broken laps', books.laps.broken],
    ['on path', books.pathArea / measured],
    ['entered', books.entered],
    ['left', books.left],
    ['lost', books.lost],
    ['topped up', books.toppedUp],
    ['box left', t.box],
    ['first spill', books.firstSpill / 1e9],
    ['busy seconds', books.busyArea / 1e9],
    ['duty seconds', books.dutyArea / 1e9],
    ['jobs waiting', books.jobArea / measured],
    ['cleared', books.cleared.count],
    ['time to clear', books.cleared.sum / books.cleared.count / 1e9],
    ['locked', (t.lockedAt ?? Infinity) / 1e9],
    ['places that lock', asNumber(t.lockedPlaces)],
  ]);
  for (const { home, at } of t.places) {
    const own = home.tally;
    for (const [name, plain] of COLUMNS)
      all.set(`${home.id} ${name}`, plain(books.places[at] as PlaceBooks, own, measured));
    const starved =
      home.drive.kind === 'continuous'
        ? own.emptyCycles / own.cycles
        : own.waiting / (own.inLoop - own.stopped);
    all.set(`${home.id} starved share`, starved);
  }
  for (const { id, tally } of t.spares) {
    all.set(`${id} in use`, tally.inLoop / measured);
    all.set(`${id} stops`, tally.stops);
    all.set(`${id} stopped share`, tally.stopped / measured);
  }
  return all;
}

/** What the simulator has measured, by the same names. */
export function measuresOfResult(spec: LoopSpec, result: ReturnType<typeof simulate>): Measures {
  const { laps, crew } = result;
  const all = new Map<string, number>([
    ['passes', result.passes],
    ['laps', laps.count],
    ['lap', laps.mean],
    ['broken laps', laps.broken],
    ['on path', result.onPath],
    ['entered', result.entered],
    ['left', result.left],
    ['lost', result.lost],
    ['topped up', result.toppedUp],
    ['box left', result.boxLeft],
    ['first spill', result.firstSpill],
    ['busy seconds', crew.busySeconds],
    ['duty seconds', crew.dutySeconds],
    ['jobs waiting', crew.waitingJobs],
    ['cleared', crew.clearCount],
    ['time to clear', crew.clearMeanSeconds],
    ['locked', result.locked?.at ?? Infinity],
    ['places that lock', asNumber([...(result.locked?.heldUp ?? [])])],
  ]);
  for (const [m, { id }] of spec.modules.entries()) {
    for (const [name, , core] of COLUMNS) all.set(`${id} ${name}`, result.modules[core][m] ?? NaN);
    all.set(`${id} starved share`, result.modules.starvedShare[m] ?? NaN);
  }
  for (const [i, { id }] of (spec.spares ?? []).entries()) {
    all.set(`${id} in use`, result.spares.inUseShare[i] ?? NaN);
    all.set(`${id} stops`, result.spares.stops[i] ?? NaN);
    all.set(`${id} stopped share`, result.spares.stoppedShare[i] ?? NaN);
  }
  return all;
}
