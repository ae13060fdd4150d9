import type { HeadStartRules } from './headStartRules.js';

/** Who keeps in step with the queue whatever the table is like, and what may be taken from it. */
export interface Pace {
  /** Places that keep in step, because somebody watches what happens at them. */
  readonly inStep: 'all' | readonly number[];
  /** Whether ends of stops may be drawn again before they come: then no place may count on them. @default false */
  readonly redraws?: boolean;
}

/**
 * Which places may run ahead of the queue (see runAhead.ts), and how far each has got.
 */
export class HeadStart {
  /** As in {@link HeadStartRules}, without those that are watched. */
  readonly may: Uint8Array;
  readonly shortestWay: Float64Array;
  readonly shortestSweep: number;
  readonly shortestTopUp: number;
  readonly shortestLever: Float64Array;
  /** While a place runs ahead: all that happens at it up to and including this moment has happened. */
  readonly until: Float64Array;
  /** The least of these; Infinity when no place runs ahead. */
  leastUntil: number = Infinity;

  /** Seconds: a place that is no further than this past the next event is not well past it; see runAhead.ts. */
  readonly near: number;
  /** True when nobody may count on when a stop will end. */
  readonly redraws: boolean;

  constructor(rules: HeadStartRules, { inStep, redraws = false }: Pace) {
    const n = rules.may.length;
    this.shortestWay = rules.shortestWay;
    this.shortestSweep = rules.shortestSweep;
    this.shortestTopUp = rules.shortestTopUp;
    this.shortestLever = rules.shortestLever;
    this.redraws = redraws;
    this.until = new Float64Array(n).fill(-Infinity);
    this.may = rules.may.slice();
    if (inStep === 'all') this.may.fill(0);
    else for (const m of inStep) this.may[m] = 0;
    let ways = 0;
    let sum = 0;
    for (let m = 0; m < n; m++) {
      if (this.may[m + 1 < n ? m + 1 : 0] === 0) continue;
      ways++;
      sum += this.shortestWay[m];
    }
    this.near = ways > 0 ? (0.5 * sum) / ways : 0;
  }
}
