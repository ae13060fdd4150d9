import { spawnSync } from 'node:child_process';

/** Whether a Jupyter is there that a browser can be pointed at. */
export function findJupyterForTests() {
  return ['notebook', 'lab'].some(
    (kind) => spawnSync('jupyter', [kind, '--version'], { stdio: 'ignore' }).status === 0,
  );
}
