import {
  measureIndex,
  MEASURES,
  type ShowSource,
  type StudyTask,
} from '../../../packages/sim-core/src/experiments/index.js';
import type { LoopSpec } from '../../../packages/sim-core/src/model/spec/index.js';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import type { Grid, Varied } from '../../../packages/sim-core/src/studies/index.js';
import { exampleLoop } from '../../docs/exampleLoop.js';

/** Uniform numbers of one show: the same for every loop when only the replication counts, else of its own. */
export interface Luck {
  readonly common: () => number;
  readonly own: () => number;
}

/**
 * A source of shows in which the given measures are made up from the value that is varied, and all others are 0; but that
 * about a ball a second passes, a little more or less from show to show.
 */
export function madeSource(
  figures: (value: number, luck: Luck, task: StudyTask) => Readonly<Record<string, number>>,
): ShowSource & { shows: number } {
  const source = {
    size: 1,
    shows: 0,
    run: (task: StudyTask): Promise<number[]> => {
      source.shows++;
      const { seed, replication, spec } = task;
      const value = valueOf(spec);
      const address = { seed, replication, place: null };
      const common = stream({ ...address, purpose: 'common' });
      const own = stream({ ...address, purpose: `own ${value}` });
      const row = MEASURES.map(() => 0);
      const flow = stream({ ...address, purpose: `flow ${value}` });
      row[measureIndex('throughput_bps')] = 1 + 0.001 * flow();
      for (const [id, figure] of Object.entries(figures(value, { common, own }, task)))
        row[measureIndex(id)] = figure;
      return Promise.resolve(row);
    },
    close: () => Promise.resolve(),
  };
  return source;
}

/** A loop that says which value it has, for a made-up source. */
export function loopWith(value: number): LoopSpec {
  return {
    ...exampleLoop,
    crew: { ...exampleLoop.crew, duty: [{ fromSeconds: 0, minders: value }] },
    show: { seconds: 12 * 3600, warmUpSeconds: 0 },
  };
}

function valueOf(spec: LoopSpec): number {
  return spec.crew.duty[0]?.minders ?? NaN;
}

/** A number of the file, or something else, over these values and no others. */
export function made(
  values: readonly number[],
  more: Partial<Varied> & { readonly grid?: Grid } = {},
): Varied {
  return {
    thing: { kind: 'key', key: 'crew.walk', unit: '' },
    now: loopWith(values[0] ?? 0),
    today: values[0] ?? null,
    at: loopWith,
    grid: { values, step: 1, min: 0, whole: true, fixed: true },
    want: 'least',
    ...more,
  };
}
