import { howManyQuestion } from '@lapwright/sim-core';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import { type Amount, wholeOf } from '../optionValues.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';

/** What can be varied: any other text is a key of the file, such as `'crew.walk'`. */
export type VariedName = 'balls' | 'minders' | `basket ${string}` | `stops ${string}` | (string & {});

/** Which values are tried, and by what they are judged. */
export interface HowManyLoopOptions extends SimulationOptions {
  /** Shows that judge each value. @default 40 */
  readonly replications?: number;
  /** The figure that decides. @default of balls the public hours with a spill; otherwise spills_per_hour, and balls must pass */
  readonly on?: MeasureName;
  /** What the figure is to keep to, such as `'5 %'` or `80`. */
  readonly limit?: Amount;
  /** Without a limit: differences up to this do not matter. @default 10 % */
  readonly margin?: Amount;
  /** Values to try: `[60, 75, 90]`, `['10 s', '20 s']`. @default around the one there is */
  readonly values?: readonly Amount[];
  /** Instead of `values`: from here ... */
  readonly from?: Amount;
  /** ... to here ... */
  readonly to?: Amount;
  /** ... in steps of this. */
  readonly step?: Amount;
  /** Of minders: so many more or fewer in every shift. @default false */
  readonly shifts?: boolean;
  /** As much as will do. */
  readonly most?: boolean;
  /** As little as will do. */
  readonly least?: boolean;
}

/**
 * Varies one thing and says which value to take: how many balls, how many minders, how large a basket. Write `await` before
 * it.
 *
 * @param what `'balls'`, `'minders'`, `'basket old-mill'`, `'stops old-mill'` (how many times as often it may stop), or a key
 *   of the file such as `'crew.walk'`
 * @returns the answer, for `show`, `table` and `explain`
 * @throws InputError when there is no such thing, or values make no sense
 * @example
 * (await howMany('scenarios/chain-of-five.yaml', 'basket fifth', { values: [30, 60], replications: 4 })).answer.question // => 'how-many'
 */
export function howMany(
  loop: LoopSource,
  what: VariedName,
  options: HowManyLoopOptions = {},
): Promise<Reply> {
  const { replications = 40, on, limit, margin, values, from, to, step, shifts, most, least } = options;
  return ask([loop], options, async (study, [{ origin }]) => {
    const [thing = '', ...module] = what.trim().split(/\s+/);
    const question = howManyQuestion(origin, {
      what: thing,
      replications: wholeOf('replications', replications, 2),
      ...(module.length > 0 && { module: module.join(' ') }),
      ...(on !== undefined && { on: checkedMeasure(on) }),
      ...(limit !== undefined && { limit: String(limit) }),
      ...(margin !== undefined && { margin: String(margin) }),
      ...(values !== undefined && { values: values.join(',') }),
      ...(from !== undefined && { from: String(from) }),
      ...(to !== undefined && { to: String(to) }),
      ...(step !== undefined && { step: String(step) }),
      ...(shifts !== undefined && { shifts }),
      ...(most !== undefined && { most }),
      ...(least !== undefined && { least }),
    });
    return { parts: await question(study) };
  });
}
