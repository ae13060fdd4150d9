import { ParameterError, requireParameter } from '../errors/index.js';

const POSITIONS = 2 ** 32;
const CLASSES = 2 ** 20;

/**
 * The future events of a simulation, in the order in which they happen: by time, at the same instant by event
 * class, then by position, then by timer number.
 *
 * Events hang on *timers*. A timer belongs to a position (a machine, a clerk, a lane), is made once, and can be
 * scheduled, moved and cancelled as often as needed; it has at most one event pending. A model that needs two
 * events pending at one position gives that position two timers.
 *
 * Times are in any unit the model likes, as long as it is the same one throughout; this package uses seconds.
 *
 * Implementation: a tournament (winner) tree over the timers, in typed arrays (Knuth, The Art of Computer
 * Programming vol. 3, 5.4.1, from memory). A timer that fires is usually scheduled again at once, and then one walk
 * from its leaf to the root does the work of both removing and inserting; a heap needs two.
 *
 * @example
 * const queue = new EventQueue();
 * const door = queue.addTimer(0), bell = queue.addTimer(1);
 * queue.schedule(bell, 4, 0);
 * queue.schedule(door, 4, 1);
 * queue.schedule(door, 2, 1); // moved: a timer has one event pending
 * [queue.next(), queue.now, queue.next(), queue.now, queue.next()] // => [0, 2, 1, 4, -1]
 */
export class EventQueue {
  /**
   * Time of the event taken last; where the simulation stands. It begins as NaN, before the constructor sets it, because
   * the engine keeps a field as it was first filled: as a small whole number, all code that reads it would have to be
   * compiled again when the first fraction comes.
   */
  now: number = NaN;
  /** Class of the event taken last. */
  eventClass = 0;
  /** Events pending. */
  size = 0;

  private timers = 0;
  private leaves: number;
  /** Time of each timer's pending event, Infinity when none. */
  private times: Float64Array;
  /** class x POSITIONS + position: decides between events at the same instant. Exact below 2^52. */
  private ranks: Float64Array;
  private positions: Float64Array;
  /** tree[1] is the winner of all; node i has children 2i and 2i + 1; leaf of timer t is node leaves + t. */
  private tree: Int32Array;
  /**
   * The timer that fired last, while the tree above its leaf has not been replayed yet; -1 when there is none. Replays
   * of other timers meanwhile may leave wrong winners on this timer's path only, and its own replay mends exactly that.
   */
  private stale = -1;

  /**
   * @param start time at which the simulation begins
   * @throws ParameterError when `start` is not a finite number
   */
  constructor(start = 0) {
    requireParameter(Number.isFinite(start), 'EventQueue', 'start', start, 'a finite number');
    this.now = start;
    this.leaves = 64;
    this.times = new Float64Array(this.leaves).fill(Infinity);
    this.ranks = new Float64Array(this.leaves);
    this.positions = new Float64Array(this.leaves);
    this.tree = new Int32Array(2 * this.leaves);
    this.rebuild();
  }

  /**
   * Makes a timer and returns its number: 0, 1, 2 and so on.
   *
   * @param position whole number from 0 to 2^32 - 1; at the same instant and class the lower position goes first
   * @throws ParameterError when the position is not such a number
   */
  addTimer(position: number): number {
    requirePosition('EventQueue.addTimer', position);
    if (this.timers === this.leaves) this.grow();
    const timer = this.timers++;
    this.positions[timer] = position;
    return timer;
  }

  /**
   * Sets the time and class of a timer's event; an event that was pending on it is moved.
   *
   * @param time when it happens: finite, not before {@link now}
   * @param eventClass whole number from 0 to 2^20 - 1; at the same instant the lower class goes first
   * @throws ParameterError for NaN, infinite or past times, an unusable class or a timer that does not exist
   */
  schedule(timer: number, time: number, eventClass: number): void {
    // Negated guards: NaN fails them too. "time < Infinity" is what refuses infinite times.
    if (!(time >= this.now && time < Infinity)) this.refuseTime(time);
    if (!(timer >>> 0 === timer && timer < this.timers)) this.refuseTimer(timer);
    if (!(eventClass >>> 0 === eventClass && eventClass < CLASSES)) this.refuseClass(eventClass);
    if (this.times[timer] === Infinity) this.size++;
    this.times[timer] = time;
    this.ranks[timer] = eventClass * POSITIONS + this.positions[timer];
    if (timer === this.stale) this.stale = -1;
    this.replay(timer);
  }

  /**
   * Moves a timer to another position; an event pending on it keeps the rank it has.
   *
   * @throws ParameterError when the position or the timer cannot be used
   */
  setPosition(timer: number, position: number): void {
    if (!(timer >>> 0 === timer && timer < this.timers)) this.refuseTimer(timer);
    requirePosition('EventQueue.setPosition', position);
    this.positions[timer] = position;
  }

  /** Takes back a timer's pending event; false when there was none. */
  cancel(timer: number): boolean {
    if (!(timer >>> 0 === timer && timer < this.timers)) this.refuseTimer(timer);
    if (this.times[timer] === Infinity) return false;
    this.times[timer] = Infinity;
    this.size--;
    this.replay(timer);
    return true;
  }

  /** Time of a timer's pending event, Infinity when there is none. */
  timeOf(timer: number): number {
    if (!(timer >>> 0 === timer && timer < this.timers)) this.refuseTimer(timer);
    return this.times[timer];
  }

  /** Class of a timer's pending event, -1 when there is none. */
  classOf(timer: number): number {
    return this.timeOf(timer) === Infinity ? -1 : Math.floor(this.ranks[timer] / POSITIONS);
  }

  /** Time of the next event, Infinity when there is none. */
  peek(): number {
    if (this.stale >= 0) this.settle();
    return this.times[this.tree[1]];
  }

  /** Takes the next event, moves {@link now} and {@link eventClass} to it and returns its timer, -1 when none is left. */
  next(): number {
    if (this.stale >= 0) this.settle();
    const timer = this.tree[1];
    const time = this.times[timer];
    if (time === Infinity) return -1;
    this.now = time;
    this.eventClass = Math.floor(this.ranks[timer] / POSITIONS);
    this.times[timer] = Infinity;
    this.stale = timer;
    this.size--;
    return timer;
  }

  /** Cancels everything and sets the clock; timers stay as they are. */
  reset(start = 0): void {
    requireParameter(Number.isFinite(start), 'EventQueue.reset', 'start', start, 'a finite number');
    this.now = start;
    this.eventClass = 0;
    this.size = 0;
    this.stale = -1;
    this.times.fill(Infinity);
    this.rebuild();
  }

  private settle(): void {
    const timer = this.stale;
    this.stale = -1;
    this.replay(timer);
  }

  /** Plays the matches from a timer's leaf to the root again. */
  private replay(timer: number): void {
    const { tree, times, ranks } = this;
    for (let node = (this.leaves + timer) >> 1; node >= 1; node >>= 1) {
      const a = tree[2 * node];
      const b = tree[2 * node + 1];
      const ta = times[a];
      const tb = times[b];
      // Between equal ranks the left child wins: it holds the lower timer number.
      const winner = ta < tb || (ta === tb && ranks[a] <= ranks[b]) ? a : b;
      // An unchanged winner that is not this timer met the same opponents above as before: nothing more can change.
      if (tree[node] === winner && winner !== timer) return;
      tree[node] = winner;
    }
  }

  private rebuild(): void {
    const { tree, leaves, times, ranks } = this;
    for (let leaf = 0; leaf < leaves; leaf++) tree[leaves + leaf] = leaf;
    for (let node = leaves - 1; node >= 1; node--) {
      const a = tree[2 * node];
      const b = tree[2 * node + 1];
      tree[node] = times[a] < times[b] || (times[a] === times[b] && ranks[a] <= ranks[b]) ? a : b;
    }
  }

  private grow(): void {
    if (this.stale >= 0) this.settle();
    const old = this.leaves;
    this.leaves = 2 * old;
    const times = new Float64Array(this.leaves).fill(Infinity);
    times.set(this.times);
    const ranks = new Float64Array(this.leaves);
    ranks.set(this.ranks);
    const positions = new Float64Array(this.leaves);
    positions.set(this.positions);
    this.times = times;
    this.ranks = ranks;
    this.positions = positions;
    this.tree = new Int32Array(2 * this.leaves);
    this.rebuild();
  }

  private refuseTime(time: number): never {
    throw new ParameterError(
      'EventQueue.schedule',
      'time',
      time,
      `a finite number from ${this.now} (now) on`,
    );
  }

  private refuseTimer(timer: number): never {
    throw new ParameterError(
      'EventQueue',
      'timer',
      timer,
      `a timer made by addTimer (${this.timers} made so far)`,
    );
  }

  private refuseClass(eventClass: number): never {
    throw new ParameterError(
      'EventQueue.schedule',
      'eventClass',
      eventClass,
      `a whole number from 0 to ${CLASSES - 1}`,
    );
  }
}

function requirePosition(where: string, position: number): void {
  requireParameter(
    Number.isInteger(position) && position >= 0 && position < POSITIONS,
    where,
    'position',
    position,
    'a whole number from 0 to 4294967295',
  );
}
