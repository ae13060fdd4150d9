import type { Ball, Place, Table } from './table.js';

/** What is counted about a module, a spare or a plain chute itself; times in ticks. */
export interface Tally {
  stops: number;
  cycles: number;
  emptyCycles: number;
  /** Time in the loop: all of it, stopped, held up and not stopped, waiting and not stopped. */
  inLoop: number;
  stopped: number;
  heldUp: number;
  waiting: number;
}

/** What is counted about a place. */
export interface PlaceBooks {
  spillsWhileStopped: number;
  spillsOnBacklog: number;
  spillsOnInflow: number;
  leaks: number;
  dropped: number;
  handedOn: number;
  /** Balls that went down the overflow chute, and balls that the lever sent back. */
  returned: number;
  sentBack: number;
  pulls: number;
  /** Level of its basket times ticks. */
  levelArea: number;
}

export interface Books {
  /** False during the warm-up. */
  open: boolean;
  from: number;
  readonly places: PlaceBooks[];
  passes: number;
  laps: { count: number; sum: number; broken: number };
  entered: number;
  left: number;
  lost: number;
  toppedUp: number;
  /** Stops that hands have ended, and how long they had lasted. */
  cleared: { count: number; sum: number };
  firstSpill: number;
  /** Balls on the path times ticks; busy minders on duty times ticks; minders on duty times ticks; jobs waiting times ticks. */
  pathArea: number;
  busyArea: number;
  dutyArea: number;
  jobArea: number;
}

export const newTally = (): Tally => ({
  stops: 0,
  cycles: 0,
  emptyCycles: 0,
  inLoop: 0,
  stopped: 0,
  heldUp: 0,
  waiting: 0,
});

export const newBooks = (places: number): Books => ({
  open: false,
  from: 0,
  places: Array.from({ length: places }, () => ({
    spillsWhileStopped: 0,
    spillsOnBacklog: 0,
    spillsOnInflow: 0,
    leaks: 0,
    dropped: 0,
    handedOn: 0,
    returned: 0,
    sentBack: 0,
    pulls: 0,
    levelArea: 0,
  })),
  passes: 0,
  laps: { count: 0, sum: 0, broken: 0 },
  entered: 0,
  left: 0,
  lost: 0,
  toppedUp: 0,
  cleared: { count: 0, sum: 0 },
  firstSpill: Infinity,
  pathArea: 0,
  busyArea: 0,
  dutyArea: 0,
  jobArea: 0,
});

const ballsIn = (batches: readonly { readonly balls: readonly Ball[] }[]): number =>
  batches.reduce((sum, { balls }) => sum + balls.length, 0);

export const onRunOut = (place: Place): number =>
  ballsIn(place.runOut.travelling) + place.runOut.waiting.length;

export const onChutes = (place: Place): number => ballsIn(place.overflow) + ballsIn(place.back);

/** Balls in baskets, mechanisms, run-outs and chutes. */
export const onPath = (t: Table): number =>
  t.places.reduce(
    (sum, place) => sum + place.basket.length + place.hand.length + onRunOut(place) + onChutes(place),
    0,
  );

/** Lets time pass up to the next event: adds it to whatever has lasted. */
export function letTimePass(t: Table, until: number): void {
  const passed = until - t.now;
  t.now = until;
  const { books } = t;
  if (passed === 0 || !books.open) return;
  for (const place of t.places) {
    const { tally } = place.machine;
    (books.places[place.at] as PlaceBooks).levelArea += place.basket.length * passed;
    tally.inLoop += passed;
    if (place.stop || place.newcomer) tally.stopped += passed;
    else if (place.doing === 'held up') tally.heldUp += passed;
    else if (place.doing === 'waiting') tally.waiting += passed;
  }
  books.pathArea += onPath(t) * passed;
  books.busyArea += Math.min(t.crew.busy.length, t.crew.onDuty) * passed;
  books.dutyArea += t.crew.onDuty * passed;
  books.jobArea += t.crew.queue.length * passed;
}

/** Counts something about a place, once the warm-up is over. */
export function count(t: Table, place: Place, what: keyof PlaceBooks, balls = 1): void {
  if (t.books.open) (t.books.places[place.at] as PlaceBooks)[what] += balls;
}

/** A ball passes the counter, or lands in the tray at the end of a chain. */
export function bookLap(t: Table, ball: Ball): void {
  const { laps } = t.books;
  if (!t.books.open || ball.passedAt === undefined) return;
  if (ball.fell) laps.broken++;
  else {
    laps.count++;
    laps.sum += t.now - ball.passedAt;
  }
}

/** Balls that find no room at a place: booked there, in one of the three classes. */
export function bookSpills(t: Table, place: Place, balls: number): void {
  if (balls === 0 || !t.books.open) return;
  t.books.firstSpill = Math.min(t.books.firstSpill, t.now);
  if (place.stop || place.newcomer) count(t, place, 'spillsWhileStopped', balls);
  else count(t, place, place.backlog ? 'spillsOnBacklog' : 'spillsOnInflow', balls);
}
