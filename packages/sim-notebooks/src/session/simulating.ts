import { availableParallelism } from 'node:os';
import { inNotebook, ProgressBar } from '../display/index.js';
import { prepareToDraw } from '../render/index.js';
import { finishedWords, progressWords, stoppedWords } from '../words/index.js';
import { interruptible } from './interruption.js';

/** What every verb that simulates can be told. */
export interface SimulationOptions {
  /** All chance begins with it: the same seed gives the same shows. A whole number from 0. @default 1 */
  readonly seed?: number;
  /** Threads to use; the result does not depend on it. @default all cores */
  readonly workers?: number;
}

/** What a simulation is given to work with. */
export interface Simulation {
  readonly signal: AbortSignal;
  readonly seed: number;
  readonly workers: number;
  /**
   * Whether the program may end while shows are simulated: the kernel of a notebook, which ends by leaving nothing to wait for.
   * A program of one's own would end at its first `await`.
   */
  readonly loose: boolean;
  readonly onProgress: (progress: { readonly done: number; readonly asked: number }) => void;
  /** "Stopped: 37 of 100 shows were finished." */
  readonly stoppedText: () => string;
}

/** Simulates with a bar that shows how far it is, and can be interrupted. */
export async function simulating<T>(
  { seed = 1, workers = availableParallelism() }: SimulationOptions,
  work: (simulation: Simulation) => Promise<T>,
): Promise<T> {
  return interruptible(async (signal) => {
    const bar = new ProgressBar(progressWords);
    const last = { done: 0, asked: 0 };
    const stoppedText = (): string => stoppedWords(last.done, last.asked);
    // While the workers start and simulate, this thread has nothing to do.
    prepareToDraw();
    try {
      const result = await work({
        signal,
        seed,
        workers,
        loose: inNotebook(),
        stoppedText,
        onProgress: ({ done, asked }) => {
          Object.assign(last, { done, asked });
          bar.show(done, asked);
        },
      });
      bar.finish(signal.aborted ? stoppedText() : finishedWords(last.done));
      return result;
    } catch (error) {
      // Where nothing was simulated, the message is all there is to say.
      if (last.asked > 0) bar.finish(stoppedText());
      throw error;
    }
  });
}
