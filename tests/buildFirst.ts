import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/**
 * Builds before the first test: tests run what is built, not the sources (vitest.config.ts), and must never judge
 * yesterday's program. A second when nothing has changed.
 */
export default function buildFirst(): void {
  for (const program of ['node_modules/typescript/bin/tsc', 'packages/sim-core/build/bundleCheck.mjs']) {
    const { status, stdout, stderr } = spawnSync(process.execPath, [program, '-b'], {
      cwd: fileURLToPath(new URL('..', import.meta.url)),
      encoding: 'utf8',
    });
    if (status !== 0) throw new Error(`${program} failed, so nothing is tested:\n${stdout}${stderr}`);
  }
}
