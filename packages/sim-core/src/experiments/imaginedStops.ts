import type { LoopView } from '../model/loopView.js';
import type { LoopSpec } from '../model/spec/index.js';
import { type Arrival, TableTracker } from './tableTracker.js';

/** What an imagined stop has come to so far, seconds. */
export interface ImaginedStop {
  readonly place: number;
  /** When it begins, seconds after the opening. */
  readonly from: number;
  /** Seconds until a ball finds no room; Infinity while that has not happened. */
  after: number;
  /** Balls that still find room. */
  room: number;
  /** Balls elsewhere on the path that must still come: those behind them would only come because the module runs. */
  elsewhere: number;
}

/**
 * Imagines modules stopped in a show in which they run: when would their baskets flood?
 *
 * A stopped module holds back none of those before it (but where baskets back up, and then it is asked when the basket is
 * full), so that balls come to it as if it ran, as long as they are balls that were elsewhere when it stopped. No ball
 * overtakes another, so these come first; when they are used up, none comes any more. Left out is what its stop would do
 * to the rest of the loop in a roundabout way: minders who have less to do because other modules go without balls, levers
 * that are set for other stops of its own, and the last few balls that wait for more in mechanisms that start at several.
 */
export class ImaginedStops {
  private readonly tracker: TableTracker;
  private readonly spec: LoopSpec;
  private readonly open: ImaginedStop[][];
  private now = 0;

  constructor(spec: LoopSpec) {
    this.spec = spec;
    this.open = spec.modules.map(() => []);
    this.tracker = new TableTracker(spec, (place, balls, how) => this.arrive(place, balls, how));
  }

  /** Whether module m stands in its place and runs, at the moment last looked at. */
  runs(m: number): boolean {
    return this.tracker.runs[m] === 1;
  }

  /** Imagines module m stopped from a moment on that lies before the next event that is observed. */
  begin(m: number, from: number): ImaginedStop {
    const { level, held, onPath } = this.tracker;
    const standing = level[m] ?? 0;
    const stop: ImaginedStop = {
      place: m,
      from,
      after: Infinity,
      room: Math.max(0, (this.spec.modules[m]?.basket.capacity ?? Infinity) - standing),
      elsewhere: onPath - standing - (held[m] ?? 0),
    };
    this.open[m]?.push(stop);
    return stop;
  }

  /** Looks at the table after an event; call it after each. */
  observe(view: LoopView): void {
    this.now = view.now;
    this.tracker.observe(view);
  }

  private arrive(place: number, balls: number, how: Arrival): void {
    const open = this.open[place];
    if (open === undefined || open.length === 0) return;
    for (const stop of open) {
      if (how === 'by_hand') {
        stop.room -= Math.min(stop.room, balls);
        continue;
      }
      const coming = Math.min(balls, stop.elsewhere);
      stop.elsewhere -= coming;
      stop.room -= coming;
      if (stop.room < 0) stop.after = this.now - stop.from;
    }
    this.open[place] = open.filter(({ room, elsewhere }) => room >= 0 && elsewhere > 0);
  }
}
