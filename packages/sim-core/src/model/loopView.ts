import { onFloor } from './basket.js';
import type { LoopState } from './loopState.js';

/**
 * What an observer may look at after each event: the state of the table at this moment. The same object is handed over
 * every time; read from it, do not keep it.
 */
export interface LoopView {
  /** Seconds after the opening. */
  readonly now: number;
  /** Class of the event that has just happened: its rank among events of the same instant. */
  readonly eventClass: number;
  /** Module of the event, -1 when it belongs to none. */
  readonly module: number;
  readonly modules: number;
  /** Balls in the basket of module m. */
  level(m: number): number;
  /** Balls in the mechanism of module m. */
  held(m: number): number;
  /** Balls on the run-out behind module m. */
  onRunOut(m: number): number;
  stopped(m: number): boolean;
  /** Ball numbers in the basket, mechanism or run-out of module m, from first to last. */
  ballsIn(place: 'basket' | 'mechanism' | 'run_out', m: number): number[];
  readonly floor: number;
  readonly lost: number;
  /** Balls that came from the feed and went into the tray so far (0 in a loop). */
  readonly entered: number;
  readonly left: number;
  readonly busyMinders: number;
  readonly waitingJobs: number;
}

/** The view of a state. */
export function viewOf(s: LoopState): LoopView & { module: number } {
  return {
    module: -1,
    modules: s.modules,
    get now() {
      return s.queue.now;
    },
    get eventClass() {
      return s.queue.eventClass;
    },
    level: (m) => s.baskets.count[m],
    held: (m) => s.held.count[m],
    onRunOut: (m) => s.runOuts.count[m],
    stopped: (m) => s.stopped[m] === 1,
    ballsIn: (place, m) => {
      const lists = place === 'basket' ? s.baskets : place === 'mechanism' ? s.held : s.runOuts;
      return lists.toArray(m);
    },
    get floor() {
      return onFloor(s);
    },
    get lost() {
      return s.lost;
    },
    get entered() {
      return s.entered;
    },
    get left() {
      return s.left;
    },
    get busyMinders() {
      return s.busy;
    },
    get waitingJobs() {
      return s.jobs.length;
    },
  };
}
