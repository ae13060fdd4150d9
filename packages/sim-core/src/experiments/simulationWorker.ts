import { type MeasurePlan, PreparedLoop, type ReplicationResult, simulate } from '../model/index.js';
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

const jobs = new Unpacked((data) => {
  const { spec, plan, seed } = data as ReplicationJob;
  return { loop: new PreparedLoop(spec, plan), seed };
}, 1);
const loops = new Unpacked((data) => new PreparedLoop(data as LoopSpec), MOST_LOOPS);

serve(
  (task) => simulated(task as SimulationTask),
  () => {
    jobs.clear();
    loops.clear();
  },
);

function simulated(task: SimulationTask): ReplicationResult | readonly number[] {
  if (task.kind === 'show') return simulateShow(loops.get(task.loop), task.show);
  const { loop, seed } = jobs.get(task.job);
  return simulate(loop, { seed, replication: task.replication });
}
