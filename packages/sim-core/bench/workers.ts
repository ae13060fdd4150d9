import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { type LoopSpec, replicate } from '@lapwright/sim-core';
import { buildBaseline } from './baseline.js';
import { scenarioSpec } from './scenarioSpec.js';
import { spread } from './spread.js';

const SHOWS = 100;
const ROUNDS = 5;
/** Shows of the C program in each of two processes. */
const SERIES = 40;

/**
 * A hundred shows with one worker and with two, in turn: wall time, and processor time in all. Beside it the C program alone
 * and twice at once: where that takes longer, the cores share something, and two workers cannot be twice as fast.
 */
export async function benchWorkers(say: (line: string) => void): Promise<void> {
  say(`workers, ${SHOWS} shows, ${ROUNDS} times in turn; other load on this machine (per core): ${load()}`);
  if (availableParallelism() < 2) return say('  one core only: not measured');
  for (const name of ['loop50', 'demo'] as const) {
    const spec = scenarioSpec(name);
    const faster: number[] = [];
    const dearer: number[] = [];
    for (let round = 0; round < ROUNDS; round++) {
      const one = await timed(spec, 1);
      const two = await timed(spec, 2);
      faster.push(one.wall / two.wall);
      dearer.push(two.cpu / one.cpu);
    }
    say(`  ${name}`);
    say(`    two are faster than one        ${spread(faster, 2)} times`);
    say(`    processor time of two over one ${spread(dearer, 2)}`);
  }
  await benchSharing(say);
}

/** What two cores of this machine take from each other, whatever runs on them. */
async function benchSharing(say: (line: string) => void): Promise<void> {
  const baseline = buildBaseline();
  if (baseline === undefined) return;
  const shared: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const alone = await baseline.series(SERIES);
    const both = await Promise.all([baseline.series(SERIES), baseline.series(SERIES)]);
    shared.push((both[0] + both[1]) / 2 / alone);
  }
  baseline.remove();
  say(`  C program twice at once          ${spread(shared, 2)} times as long as alone`);
}

/** The load average where the system tells it: what else runs makes two workers look worse than they are. */
function load(): string {
  try {
    const [minute = ''] = readFileSync('/proc/loadavg', 'utf8').split(' ');
    return (Number(minute) / availableParallelism()).toFixed(1);
  } catch {
    return 'not known';
  }
}

async function timed(
  spec: LoopSpec,
  workers: number,
): Promise<{ readonly wall: number; readonly cpu: number }> {
  const from = performance.now();
  const before = process.cpuUsage();
  await replicate(spec, { seed: 1, replications: SHOWS, workers });
  const { user, system } = process.cpuUsage(before);
  return { wall: performance.now() - from, cpu: user + system };
}
