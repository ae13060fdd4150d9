import { spawnSync } from 'node:child_process';

/** Whether GNU parallel is there; another program of that name takes other arguments. */
export function findParallel() {
  return (spawnSync('parallel', ['--version'], { encoding: 'utf8' }).stdout ?? '').startsWith('GNU parallel');
}
