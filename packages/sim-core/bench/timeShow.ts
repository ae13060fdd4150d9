import { type LoopSpec, type ReplicationResult, simulate } from '@lapwright/sim-core';

/** One simulated show and the wall time it took, seconds: building the state and closing the books included. */
export function timeShow(
  spec: LoopSpec,
  replication: number,
): { readonly seconds: number; readonly result: ReplicationResult } {
  const from = performance.now();
  const result = simulate(spec, { seed: 1, replication });
  return { seconds: (performance.now() - from) / 1000, result };
}
