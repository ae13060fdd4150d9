import { type MeasurePlan, type ReplicationResult, simulate } from '../model/index.js';
import type { LoopSpec } from '../model/spec/index.js';
import { type Parcel, serve, Unpacked } from '../threads/index.js';
import { simulateShow } from './studyShow.js';
import type { StudyTask } from './studyPool.js';

/** What the threads are asked to simulate: a replication with all its measures, or what a question keeps of a show. */
export type SimulationTask =
  | { readonly kind: 'replication'; readonly job: Parcel; readonly replication: number }
  | { readonly kind: 'show'; readonly loop: Parcel; readonly show: Omit<StudyTask, 'spec'> };

/** What replications of one scenario have in common. */
export interface ReplicationJob {
  readonly spec: LoopSpec;
  readonly plan: MeasurePlan;
  readonly seed: number;
}

/** A question has several loops at a time on hand: those it compares, or the orders of a round. */
const MOST_LOOPS = 32;

const jobs = new Unpacked((data) => data as ReplicationJob, 1);
const loops = new Unpacked((data) => data as LoopSpec, MOST_LOOPS);

serve((task: SimulationTask): ReplicationResult | readonly number[] => {
  if (task.kind === 'show') return simulateShow({ ...task.show, spec: loops.get(task.loop) });
  const { spec, plan, seed } = jobs.get(task.job);
  return simulate(spec, { seed, replication: task.replication, plan });
});
