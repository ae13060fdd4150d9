import type { ReplicationResult } from '../model/index.js';

/** A figure of one show that shows are compared by. */
export interface Measure {
  /** Name with its unit, as in results. */
  readonly id: string;
  /** In words, for tables. */
  readonly title: string;
  /** Key into the kinds of figures: how its numbers are written. */
  readonly kind: 'bps' | 'time' | 'share' | 'perHour' | 'perShow';
  /** Whether a larger value is good news. */
  readonly better: 'more' | 'less';
  /**
   * How its values scatter over shows, which decides the form of its interval: around a mean; as shares; as balls that fall
   * many at a time and in many shows not at all; as single events, counted by the hour or by the show; as the share of
   * hours, or of shows, in which something happened.
   */
  readonly spread: 'mean' | 'share' | 'clumps' | 'events' | 'events of a show' | 'hours' | 'shows';
  /** Its value in one show; NaN when there was nothing to measure. */
  readonly read: (result: ReplicationResult) => number;
}

const hours = ({ measuredSeconds }: ReplicationResult): number => measuredSeconds / 3600;

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}

function spills({ modules }: ReplicationResult): number {
  return sum(modules.spillsWhileStopped) + sum(modules.spillsOnBacklog) + sum(modules.spillsOnInflow);
}

/**
 * The figures that questions about a show are answered with; the order is part of the journal of a study.
 *
 * @example
 * MEASURES.map(({ id }) => id).slice(0, 2) // => ['throughput_bps', 'spills_per_hour']
 */
export const MEASURES: readonly Measure[] = [
  {
    id: 'throughput_bps',
    title: 'balls passing the counter',
    kind: 'bps',
    better: 'more',
    spread: 'mean',
    read: (r) => r.passes / r.measuredSeconds,
  },
  {
    id: 'spills_per_hour',
    title: 'balls spilled',
    kind: 'perHour',
    better: 'less',
    spread: 'clumps',
    read: (r) => spills(r) / hours(r),
  },
  {
    id: 'spill_hour_share',
    title: 'public hours with a spill',
    kind: 'share',
    better: 'less',
    spread: 'hours',
    read: (r) => r.hoursWithSpill / r.hours,
  },
  {
    id: 'spill_show_share',
    title: 'shows with a spill',
    kind: 'share',
    better: 'less',
    spread: 'shows',
    read: (r) => (spills(r) > 0 ? 1 : 0),
  },
  {
    id: 'loop_time_s',
    title: 'loop time',
    kind: 'time',
    better: 'less',
    spread: 'mean',
    read: (r) => r.laps.mean,
  },
  {
    id: 'moving_share',
    title: 'public time with the loop moving',
    kind: 'share',
    better: 'more',
    spread: 'share',
    read: (r) => r.movingShare,
  },
  {
    id: 'stops_per_hour',
    title: 'stops',
    kind: 'perHour',
    better: 'less',
    spread: 'events',
    read: (r) => (sum(r.modules.stops) + sum(r.spares.stops)) / hours(r),
  },
  {
    id: 'lost_per_hour',
    title: 'balls lost for good',
    kind: 'perHour',
    better: 'less',
    spread: 'clumps',
    read: (r) => r.lost / hours(r),
  },
  {
    id: 'minders_busy_share',
    title: 'minders busy',
    kind: 'share',
    better: 'less',
    spread: 'share',
    read: (r) => r.crew.busySeconds / r.crew.dutySeconds,
  },
  {
    id: 'pulls_per_show',
    title: 'modules pulled',
    kind: 'perShow',
    better: 'less',
    spread: 'events of a show',
    read: (r) => sum(r.modules.pulls),
  },
  {
    id: 'loop_time_p95_s',
    title: 'loop time that the slowest 5 % exceed',
    kind: 'time',
    better: 'less',
    spread: 'mean',
    read: (r) => r.laps.p95,
  },
];

/**
 * The number of a measure in {@link MEASURES}.
 *
 * @example
 * measureIndex('spills_per_hour') // => 1
 */
export function measureIndex(id: string): number {
  const index = MEASURES.findIndex((measure) => measure.id === id);
  if (index < 0) throw new Error(`no measure is called ${id}`);
  return index;
}
