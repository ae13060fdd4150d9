/** What is going to happen, and when: one plain list, sorted by time and by the order of MODEL.md, "Same instant". */
export interface Entry {
  /** Ticks of a nanosecond since the first opening, public time. */
  readonly time: number;
  /** Its class, by rank. */
  readonly rank: number;
  /** Position in the loop; the feed stands at -1. */
  readonly position: number;
  /** Order at one position. */
  readonly order: number;
  readonly happen: () => void;
}

/** Ranks of the classes of events at one instant. */
export const CLEARED = 0;
export const DELIVERY = 1;
export const CYCLE_END = 2;
export const STOP = 3;
export const NOTICED = 4;
export const HANDS = 5;
export const SWEEP = 6;
export const SAMPLE = 7;

/** Order among deliveries at one position. */
export const FROM_RUN_OUT = 0;
export const FROM_OVERFLOW = 1;
export const FROM_LEVER = 2;

/** Order among the crew's hands at one position. */
export const SWAP_DONE = 0;
export const OUTLASTS = 1;
export const MENDED = 2;
export const LEVER_SET = 3;

/** Order among sweeps and topping up. */
export const SWEEP_DONE = 0;
export const SWEEP_DUE = 1;
export const TOP_UP = 2;

export class Agenda {
  private readonly entries: Entry[] = [];

  /** Puts an entry behind all that come before it or are its equals. */
  plan(entry: Entry): Entry {
    let i = this.entries.length;
    while (i > 0 && comesBefore(entry, this.entries[i - 1] as Entry)) i--;
    this.entries.splice(i, 0, entry);
    return entry;
  }

  /** Takes an entry off the list, if it is on it still. */
  cancel(entry: Entry | undefined): void {
    const i = entry === undefined ? -1 : this.entries.indexOf(entry);
    if (i >= 0) this.entries.splice(i, 1);
  }

  /** The next entry up to a time, taken off the list. */
  next(until: number): Entry | undefined {
    const first = this.entries[0];
    return first && first.time <= until ? this.entries.shift() : undefined;
  }
}

function comesBefore(a: Entry, b: Entry): boolean {
  return (a.time - b.time || a.rank - b.rank || a.position - b.position || a.order - b.order) < 0;
}
