import type { LoopSpec, ModuleCounted } from '../model/spec/index.js';
import { packAgain, type Parcel, ThreadPool } from '../threads/index.js';
import type { Reading } from './reading.js';
import { requireCount } from './requireCount.js';
import type { SimulationTask } from './simulationWorker.js';
import { SIMULATION_WORKER } from './simulationThreads.js';

/** One show of one of the systems that are compared. */
export interface StudyTask {
  readonly spec: LoopSpec;
  readonly seed: number;
  readonly replication: number;
  /** What is kept of it. @default the measures */
  readonly reading?: Reading;
  /** What its parameters are drawn from. @default as they stand in the spec */
  readonly doubt?: Doubt;
}

/** What few counts leave open of the parameters of a loop: they are drawn anew for every few shows. */
export interface Doubt {
  readonly counted: readonly ModuleCounted[];
  /** So many shows in a row, from replication 0 on, have the same draw. */
  readonly showsPerDraw: number;
}

/** Something that simulates shows of any system and gives what is to be kept of them. */
export interface ShowSource {
  readonly size: number;
  run(task: StudyTask): Promise<readonly number[]>;
  close(): Promise<void>;
}

/**
 * Worker threads that simulate shows of several systems: each task says of which.
 *
 * @example
 * const pool = new StudyPool(1);
 * await pool.close();
 * pool.size // => 1
 */
export class StudyPool implements ShowSource {
  readonly size: number;
  private readonly pool: ThreadPool<SimulationTask, readonly number[]>;
  private readonly packed = new WeakMap<LoopSpec, Parcel>();

  /**
   * @param size worker threads, from 1; they start when there is something to do
   * @param options.loose whether the program may end while shows are simulated, as in a notebook @default false
   * @throws ParameterError when the size is not a whole number from 1
   */
  constructor(size: number, { loose = false }: { readonly loose?: boolean } = {}) {
    requireCount('StudyPool', 'size', size);
    this.size = size;
    this.pool = new ThreadPool(size, SIMULATION_WORKER, { loose });
  }

  async run({ spec, ...show }: StudyTask): Promise<readonly number[]> {
    const loop = packAgain(this.packed.get(spec), spec);
    this.packed.set(spec, loop);
    return this.pool.run({ kind: 'show', loop, show });
  }

  close(): Promise<void> {
    return this.pool.close();
  }
}
