import { statSync } from 'node:fs';
import { stream } from '../../../packages/sim-core/src/random/index.js';
import { start } from './runLapwright.js';

const LOOK_MS = 5;

/**
 * Runs a question with a journal and kills it at random moments, each time going on from the journal: after a random number
 * of bytes more in it, so that it was in the middle of its shows however fast the machine is.
 *
 * @param most bytes that the journal grows by at most between two kills
 * @returns how often it was killed before it had finished
 */
export async function killedAtRandom(
  args: readonly string[],
  journal: string,
  { times, most }: { readonly times: number; readonly most: number },
): Promise<number> {
  const uniform = stream({ seed: 1, replication: 0, place: null, purpose: 'kill' });
  let killed = 0;
  for (let i = 0; i < times; i++) {
    const goal = size(journal) + Math.ceil(uniform() * most);
    const { child, finished } = start([...args, '--journal', journal, '--resume']);
    while (child.exitCode === null && size(journal) < goal)
      await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    child.kill('SIGKILL');
    if ((await finished).code === null) killed++;
  }
  return killed;
}

function size(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}
