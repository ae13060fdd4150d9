import { execFile } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { buildBaseline } from './baseline.js';
import { scenarioSpec } from './scenarioSpec.js';
import { spread } from './spread.js';
import { STUDY_SHOWS, timeStudy } from './timeStudy.js';

const ROUNDS = 7;
/** Shows of the C program in each of two processes. */
const SERIES = 40;

type Timed = (name: string, workers: number) => Promise<{ readonly wall: number; readonly cpu: number }>;

/**
 * A hundred shows with one worker and with two, in turn: wall time, and processor time in all. Once as the first study of a
 * process, whose threads start and compile; and as a later one, on threads that have worked before. Beside it the C program alone
 * and twice at once: where that takes longer, the cores share something, and two workers cannot be twice as fast.
 */
export async function benchWorkers(say: (line: string) => void): Promise<void> {
  say(
    `workers, ${STUDY_SHOWS} shows, ${ROUNDS} times in turn; other load on this machine (per core): ${load()}`,
  );
  if (availableParallelism() < 2) return say('  one core only: not measured');
  const program = fileURLToPath(new URL('firstStudy.js', import.meta.url));
  const first: Timed = async (name, workers) => {
    const { stdout } = await promisify(execFile)(process.execPath, [program, name, String(workers)]);
    const [wall = NaN, cpu = NaN] = stdout.split(' ').map(Number);
    return { wall, cpu };
  };
  const later: Timed = (name, workers) => timeStudy(scenarioSpec(name), workers);
  for (const name of ['loop50', 'demo']) {
    await benchPairs(say, `${name}, first study of a process`, name, first);
    await later(name, 2);
    await benchPairs(say, `${name}, later studies`, name, later);
  }
  await benchSharing(say);
}

async function benchPairs(
  say: (line: string) => void,
  title: string,
  name: string,
  timed: Timed,
): Promise<void> {
  const faster: number[] = [];
  const dearer: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const one = await timed(name, 1);
    const two = await timed(name, 2);
    faster.push(one.wall / two.wall);
    dearer.push(two.cpu / one.cpu);
  }
  say(`  ${title}`);
  say(`    two are faster than one        ${spread(faster, 2)} times`);
  say(`    processor time of two over one ${spread(dearer, 2)}`);
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
