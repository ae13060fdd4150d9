import type { ReplicationResult } from '../model/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';

/** A figure by which one show is worse than another. */
export interface Figure {
  /** Of one show; NaN when it has none. */
  readonly of: (result: ReplicationResult) => number;
  /** Whether more is worse, or less. */
  readonly worst: 'highest' | 'lowest';
  /** What it is, such as "balls spilled". */
  readonly name: string;
  /** What the worst show is, such as "spilled most balls". */
  readonly superlative: string;
  readonly written: (value: number) => string;
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);
const plain = (value: number): string => formatNumber(value);

/** The figures by which the worst show can be chosen. They count from the end of the warm-up, as in results. */
export const FIGURES = {
  spills: {
    of: ({ modules }) =>
      sum(modules.spillsWhileStopped) + sum(modules.spillsOnBacklog) + sum(modules.spillsOnInflow),
    worst: 'highest',
    name: 'balls spilled',
    superlative: 'spilled most balls',
    written: plain,
  },
  stops: {
    of: ({ modules, spares }) => sum(modules.stops) + sum(spares.stops),
    worst: 'highest',
    name: 'stops',
    superlative: 'had most stops',
    written: plain,
  },
  lost: {
    of: ({ lost }) => lost,
    worst: 'highest',
    name: 'balls lost for good',
    superlative: 'lost most balls for good',
    written: plain,
  },
  'longest-stop': {
    of: ({ crew }) => crew.longestStopSeconds,
    worst: 'highest',
    name: 'longest stop that needs a minder',
    superlative: 'had the longest stop that needs a minder',
    written: formatSeconds,
  },
  laps: {
    of: ({ laps }) => laps.mean,
    worst: 'highest',
    name: 'average lap',
    superlative: 'had the longest laps on average',
    written: formatSeconds,
  },
  moving: {
    of: ({ movingShare }) => movingShare,
    worst: 'lowest',
    name: 'share of minutes in which a ball passed the counter',
    superlative: 'had the smallest share of minutes in which a ball passed the counter',
    written: formatShare,
  },
} satisfies Readonly<Record<string, Figure>>;

export type FigureName = keyof typeof FIGURES;
