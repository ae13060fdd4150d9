import { enoughAnswer, InputError, type Narrowness, untilNarrow } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** How sharply a figure is to be known. */
export interface EnoughOptions extends SimulationOptions {
  /** The figure. @default spills_per_hour */
  readonly on?: MeasureName;
  /** How sharply: a share of the figure such as '5 %', or a number in its own unit. @default 10 % */
  readonly within?: number | string;
  /** No more shows than this. @default 1000 */
  readonly atMost?: number;
}

/**
 * Simulates until a figure is known as sharply as asked, and says how many shows that took. Write `await` before it.
 *
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await enough('scenarios/bench-one.yaml', { on: 'throughput_bps', within: '20 %', atMost: 40 })).verdict // => 'enough'
 */
export function enough(loop: LoopSource, options: EnoughOptions = {}): Promise<Reply> {
  const { within = '10 %', atMost = 1000 } = options;
  return ask([loop], options, async (study, [{ name, scenario }]) => {
    const on = checkedMeasure(options.on);
    const found = await untilNarrow(study, scenario.spec, { on, within: narrowness(within), atMost });
    return { parts: enoughAnswer(name, found) };
  });
}

function narrowness(within: number | string): Narrowness {
  const [, digits, percent] = /^\s*([\d.]+)\s*(%)?\s*$/.exec(String(within)) ?? [];
  const value = Number(digits ?? NaN);
  if (!(value > 0 && value < Infinity)) {
    throw new InputError([
      {
        code: 'out_of_range',
        path: 'within',
        found: within,
        rule: "a share such as '5 %', or a number above 0",
      },
    ]);
  }
  return percent === undefined ? { absolute: value } : { relative: value / 100 };
}
