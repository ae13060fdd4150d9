import {
  compare as compareSystems,
  type Comparison,
  compareAnswer,
  KINDS,
  type Measure,
  measureIndex,
  MEASURES,
  type Study,
  type System,
  system,
} from '@lapwright/sim-core';
import { pairsChart } from '../../charts/index.js';
import type { Figure } from '../../report/index.js';
import { pairRows } from '../../rows/index.js';
import { pairsCaption } from '../../words/index.js';
import { ask } from '../ask.js';
import type { LoopSource } from '../load.js';
import type { Loop } from '../loop.js';
import { checkedMeasure, type MeasureName } from '../measureName.js';
import type { Reply } from '../reply.js';
import type { SimulationOptions } from '../simulating.js';
import { labelOf } from './labelOf.js';

/** How two loops are to be compared. */
export interface CompareLoopsOptions extends SimulationOptions {
  /** Pairs of shows; at most, with `untilClear`. @default 100 */
  readonly replications?: number;
  /** The figure that decides. @default spills_per_hour */
  readonly on?: MeasureName;
  /** Differences up to this do not matter, in the unit of the figure. @default 5 % of before */
  readonly margin?: number;
  /** Stop as soon as it is clear. @default false */
  readonly untilClear?: boolean;
}

/**
 * Compares two loops show by show, with the same luck for both: better, worse, no difference that matters, or undecided.
 * Write `await` before it.
 *
 * @param before the loop as it is
 * @param after the loop as it might be, such as `loop.set('charge', 60)`
 * @returns the answer, for `show`, `table` and `explain`
 * @example
 * (await compare('scenarios/bench-one.yaml', 'scenarios/bench-one.yaml', { replications: 3 })).verdict // => 'no difference that matters'
 */
export function compare(
  before: LoopSource,
  after: LoopSource,
  options: CompareLoopsOptions = {},
): Promise<Reply> {
  const { replications = 100, margin, untilClear = false } = options;
  return ask([before, after], options, async (study, [one, other]) => {
    const on = checkedMeasure(options.on);
    const first = system(labelOf(one), one.scenario.spec);
    const second = system(changeLabel(one, other), other.scenario.spec);
    const found = await compareSystems(study, first, second, {
      replications,
      on,
      stopWhenClear: untilClear,
      ...(margin !== undefined && { margin }),
    });
    return {
      parts: compareAnswer(first.label, second.label, found),
      figures: [pairsFigure(study, first, second, found)],
    };
  });
}

/** What the second has that the first has not, when it was made from the first; otherwise what it is. */
function changeLabel(before: Loop, after: Loop): string {
  const [done, all] = [before.origin.changes, after.origin.changes];
  const made =
    before.origin.text === after.origin.text &&
    all.length > done.length &&
    done.every((change, i) => JSON.stringify(change) === JSON.stringify(all[i]));
  return made ? after.changes.slice(done.length).join(', ') : labelOf(after);
}

function pairsFigure(
  study: Study,
  before: System,
  after: System,
  { on, replications, measures }: Comparison,
): Figure {
  const measure = MEASURES[measureIndex(on)] as Measure;
  const rows = pairRows(study.column(before, on, replications), study.column(after, on, replications));
  const found = measures[measureIndex(on)];
  const title = `change in ${measure.title}`;
  const id = 'pairs';
  if (found === undefined || rows.length === 0)
    return { id, title: 'Show by show', caption: 'In no show was there anything to measure.' };
  const { difference } = found;
  const caption = pairsCaption(rows, { title: measure.title, kind: KINDS[measure.kind], difference });
  return {
    id,
    title: 'Show by show',
    caption,
    spec: pairsChart(rows, { description: caption, title, kind: measure.kind, difference }),
  };
}
