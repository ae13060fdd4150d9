import { measureEstimate, ParameterError, Study, StudyPool, StudyStopped, system } from '@lapwright/sim-core';
import { asLoop, type LoopSource } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import { plainly } from '../plainly.js';
import { SideBySide, type SideBySideRow } from '../sideBySide.js';
import { simulating, type SimulationOptions } from '../simulating.js';
import { Stopped } from '../stopped.js';

/** How loops are to be put side by side. */
export interface SideBySideOptions extends SimulationOptions {
  /** Shows of each. @default 100 */
  readonly replications?: number;
  /** The figure that is looked at. @default spills_per_hour */
  readonly on?: MeasureName;
}

/**
 * Simulates several loops with the same luck and puts one figure of them side by side: for lessons, and for a first look at a
 * handful of ideas. Write `await` before it.
 *
 * @param loops each under the name that stands in the picture; the first is what the others are measured against
 * @returns the figures, for `show`, `table` and `explain`
 * @throws ParameterError when there are fewer than two loops or two shows
 * @example
 * const bench = load('scenarios/bench-one.yaml');
 * const found = await sideBySide({ now: bench, fewer: bench.set('charge', 40) }, { replications: 3, on: 'throughput_bps' });
 * found.rows.map(({ label }) => label) // => ['now', 'fewer']
 */
export function sideBySide(
  loops: Readonly<Record<string, LoopSource>>,
  options: SideBySideOptions = {},
): Promise<SideBySide> {
  const { replications = 100 } = options;
  return plainly(async () => {
    const on = checkedMeasure(options.on);
    const named = Object.entries(loops);
    require(named.length >= 2, 'loops', named.length, 'two or more, each under a name');
    require(Number.isSafeInteger(replications) &&
      replications >= 2, 'replications', replications, 'a whole number from 2');
    const systems = named.map(([label, source]) => system(label, asLoop(source).scenario.spec));
    return simulating(options, async ({ signal, seed, workers, loose, onProgress, stoppedText }) => {
      const source = new StudyPool(workers, { loose });
      const study = new Study({ seed, source, signal, onProgress });
      try {
        study.expect(systems, replications);
        await study.simulate(systems, replications);
        const rows = systems.map((one): SideBySideRow => {
          const values = study.column(one, on, replications);
          const found = measureEstimate(on, values, { show: one.spec.show, confidence: 0.95 });
          return { label: one.label, values, estimate: found };
        });
        return new SideBySide(rows, { on, seed });
      } catch (error) {
        if (!(error instanceof StudyStopped)) throw error;
        throw new Stopped(stoppedText());
      } finally {
        await study.close();
      }
    });
  });
}

function require(ok: boolean, name: string, found: unknown, rule: string): void {
  if (!ok) throw new ParameterError('sideBySide', name, found, rule);
}
