import { requireParameter } from '../errors/index.js';

/** By what a cause of stopping counts its chances. */
export type StopClock = 'running' | 'per_cycle' | 'per_ball';

export interface FitOptions {
  /** Of the random numbers that goodness of fit is judged with. @default 1 */
  readonly seed?: number;
  /** @default 0.95 */
  readonly confidence?: number;
  /** Most balls lifted in one cycle, when it is known. @default the most that were seen to come out at once */
  readonly batch?: number;
  /** By what each cause counts. @default running, for every cause */
  readonly clocks?: Readonly<Record<string, StopClock>>;
  /** Causes that the module is known to have; those never seen get an upper limit. @default those that were seen */
  readonly causes?: readonly string[];
  /** The basket counts as crowded above this share of its capacity. @default 0.7 */
  readonly crowdedAbove?: number;
  /**
   * Seconds of a logged stop that passed until a hand was there (noticing, walking). A show log has them within the stop; a
   * scenario has them apart. @default 0
   */
  readonly reachSeconds?: number;
  /** Samples of each goodness-of-fit test; 0 leaves it out. @default 499 */
  readonly samples?: number;
}

/** The options with everything said. */
export type FullFitOptions = Required<Omit<FitOptions, 'batch'>> & Pick<FitOptions, 'batch'>;

/**
 * Fills in what an option leaves out.
 *
 * @throws ParameterError when an option is out of range
 */
export function fullFitOptions(options: FitOptions): FullFitOptions {
  const full: FullFitOptions = {
    seed: 1,
    confidence: 0.95,
    clocks: {},
    causes: [],
    crowdedAbove: 0.7,
    reachSeconds: 0,
    samples: 499,
    ...options,
  };
  const { confidence, crowdedAbove, reachSeconds, batch } = full;
  const share = 'above 0 and below 1';
  requireParameter(confidence > 0 && confidence < 1, 'fitModule', 'confidence', confidence, share);
  requireParameter(crowdedAbove > 0 && crowdedAbove < 1, 'fitModule', 'crowdedAbove', crowdedAbove, share);
  requireParameter(reachSeconds >= 0, 'fitModule', 'reachSeconds', reachSeconds, 'from 0 s');
  requireParameter(
    batch === undefined || (Number.isSafeInteger(batch) && batch >= 1),
    'fitModule',
    'batch',
    batch,
    'a whole number from 1',
  );
  return full;
}
