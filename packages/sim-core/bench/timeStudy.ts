import { type LoopSpec, replicate } from '@lapwright/sim-core';

/** Shows of a study whose time is taken. */
export const STUDY_SHOWS = 100;

/** Wall time of a study, and processor time of all its threads, seconds. */
export async function timeStudy(
  spec: LoopSpec,
  workers: number,
): Promise<{ readonly wall: number; readonly cpu: number }> {
  const from = performance.now();
  const before = process.cpuUsage();
  await replicate(spec, { seed: 1, replications: STUDY_SHOWS, workers });
  const { user, system } = process.cpuUsage(before);
  return { wall: (performance.now() - from) / 1000, cpu: (user + system) / 1e6 };
}
