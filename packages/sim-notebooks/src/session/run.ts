import {
  advice,
  headline,
  replicate,
  roughCut,
  type RunResult,
  SimulationError,
  summaryText,
  toRunResult,
} from '@lapwright/sim-core';
import { output } from '../display/index.js';
import { figures, paragraphs } from '../report/index.js';
import { asLoop, type LoopSource } from './load.js';
import type { Loop } from './loop.js';
import { inText } from './inText.js';
import { plainly } from './plainly.js';
import { simulating, type SimulationOptions } from './simulating.js';
import { Stopped } from './stopped.js';
import type { Figure } from '../report/index.js';

/** How a loop is to be run. */
export interface RunOptions extends SimulationOptions {
  /** How many shows. @default 100 */
  readonly replications?: number;
}

/**
 * What came out of many simulated shows. `show(run)` shows it.
 *
 * @example
 * (await run('scenarios/bench-one.yaml', { replications: 2 })).advice.length > 0 // => true
 */
export class Run {
  readonly loop: Loop;
  /** All figures, as `lapwright run --json` writes them. */
  readonly result: RunResult;
  /** What it says, in four paragraphs. */
  readonly headline: readonly string[];
  /** What to do, most urgent first. */
  readonly advice: readonly string[];
  /** The pictures that `show(run, ...)` knows, with their captions. */
  readonly figures: readonly Figure[];

  constructor(loop: Loop, result: RunResult) {
    const { scenario } = loop;
    const rough = roughCut(scenario.spec);
    this.loop = loop;
    this.result = result;
    this.headline = headline(result);
    this.advice = advice(result, scenario.spec, rough);
    this.figures = figures(result, scenario, rough);
    inText(this, () => this.text().trimEnd());
  }

  /** The summary that the command line prints. */
  text(): string {
    return summaryText(this.result, this.advice);
  }

  /** The same bytes as `lapwright run --json`. */
  json(): string {
    return `${JSON.stringify(this.result, null, 2)}\n`;
  }
}

/**
 * Simulates the show many times, with chance thrown in, and tells what to expect. Write `await` before it.
 *
 * Stopped before its end (the square button above), it shows the result of the shows that were finished.
 *
 * @param loop from `load`, or the path of a scenario file
 * @returns the result, for `show`, `table` and `explain`
 * @example
 * (await run('scenarios/bench-one.yaml', { replications: 3 })).result.replications // => 3
 */
export function run(loop: LoopSource, options: RunOptions = {}): Promise<Run> {
  const { replications = 100 } = options;
  return plainly(async () => {
    const what = asLoop(loop);
    return simulating(options, async ({ signal, seed, workers, loose, onProgress, stoppedText }) => {
      const { summary, stopped } = await replicate(what.scenario.spec, {
        replications,
        seed,
        workers,
        signal,
        onProgress,
        loose,
      });
      if (stopped instanceof Error && summary.replications === 0) throw stopped;
      if (summary.replications === 0) throw new Stopped(stoppedText());
      const done = new Run(what, toRunResult(what.scenario, summary, { seed, asked: replications }));
      if (stopped !== undefined)
        tellStopped(done, stopped instanceof SimulationError ? stopped.message : stoppedText());
      return done;
    });
  });
}

function tellStopped(partial: Run, why: string): void {
  output({
    'text/html': paragraphs([`${why} Their result:`, ...partial.headline]),
    'text/plain': `${why}\n${partial.text()}`,
  });
}
