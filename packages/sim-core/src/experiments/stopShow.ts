/** What a stop did to one show, beside the same show without it; times are seconds after the stop began. */
export interface StopShow {
  /** Whether it began; where it did not, the module stood still or was out of the loop already, and nothing else is told. */
  readonly began: boolean;
  /** Whether the module was taken out, instead of being freed or cleared. */
  readonly pulled: boolean;
  /** When the place ran again; Infinity when it did not by the end. */
  readonly runsAgain: number;
  /** When its basket would be full and a further ball come, if it stood still on and on; Infinity if never seen. */
  readonly fullAfter: number;
  /** Balls spilled in the whole loop beyond those without the stop: until the place ran again, and from then on. */
  readonly spilledWhileStopped: number;
  readonly spilledAfter: number;
  /** Most balls handed on within a minute once it ran again, and in the same time without the stop. */
  readonly handedPeak: number;
  readonly handedPeakWithout: number;
  /** By module: when more balls had spilled at its place than by then without the stop; Infinity if never. */
  readonly firstExtraSpill: readonly number[];
  /** The other way round: when more balls had spilled there without the stop than by then with it. */
  readonly firstMissingSpill: readonly number[];
  /**
   * By lever that watches it: when more balls were in the basket and on their way to it, behind the lever, than it holds;
   * Infinity if never while it stood still.
   */
  readonly leverTooLate: readonly number[];
  /** By lever: when the basket of its own module would flood if nothing left it from the same moment on. */
  readonly leverFloods: readonly number[];
  /** By basket downstream: highest level once it ran again, and in the same time without the stop. */
  readonly peakAfter: readonly number[];
  readonly peakAfterWithout: readonly number[];
  /** At every look: balls above the usual levels of their baskets, with the stop and without. */
  readonly above: readonly number[];
  readonly aboveWithout: readonly number[];
  /** Balls handed on in each minute, with the stop and without. */
  readonly handed: readonly number[];
  readonly handedWithout: readonly number[];
}

/** Stands for Infinity, which a journal cannot hold; no figure here can be so. */
const NEVER = -1e9;

/** A show as a row of numbers, each list with its length before it. */
export function toNumbers(show: StopShow): number[] {
  const list = (values: readonly number[]): readonly number[] => [values.length, ...values];
  return [
    Number(show.began),
    Number(show.pulled),
    show.runsAgain,
    show.fullAfter,
    show.spilledWhileStopped,
    show.spilledAfter,
    show.handedPeak,
    show.handedPeakWithout,
    ...list(show.firstExtraSpill),
    ...list(show.firstMissingSpill),
    ...list(show.leverTooLate),
    ...list(show.leverFloods),
    ...list(show.peakAfter),
    ...list(show.peakAfterWithout),
    ...list(show.above),
    ...list(show.aboveWithout),
    ...list(show.handed),
    ...list(show.handedWithout),
  ].map((value) => (value === Infinity ? NEVER : value));
}

/** The show of a row of numbers. */
export function toStopShow(numbers: readonly number[]): StopShow {
  let next = 0;
  const take = (): number => {
    const value = numbers[next++] ?? NaN;
    return value === NEVER ? Infinity : value;
  };
  const list = (): number[] => Array.from({ length: take() }, take);
  return {
    began: take() === 1,
    pulled: take() === 1,
    runsAgain: take(),
    fullAfter: take(),
    spilledWhileStopped: take(),
    spilledAfter: take(),
    handedPeak: take(),
    handedPeakWithout: take(),
    firstExtraSpill: list(),
    firstMissingSpill: list(),
    leverTooLate: list(),
    leverFloods: list(),
    peakAfter: list(),
    peakAfterWithout: list(),
    above: list(),
    aboveWithout: list(),
    handed: list(),
    handedWithout: list(),
  };
}

/** Figures that stand before the lists, and how many lists there are. */
const PLAIN = 8;
const LISTS = 10;

/** Whether a row of numbers ends just where its last list does. */
export function stopRowFits(numbers: readonly number[]): boolean {
  let next = PLAIN;
  for (let list = 0; list < LISTS; list++) {
    const length = numbers[next];
    if (length === undefined || !Number.isSafeInteger(length) || length < 0) return false;
    next += 1 + length;
  }
  return next === numbers.length;
}
