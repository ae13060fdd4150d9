import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** What npm run build runs. */
const STEPS = [
  ['node_modules/typescript/bin/tsc', '-b'],
  ['packages/sim-core/build/bundleCore.mjs'],
  ['packages/sim-notebooks/build/bundleNotebooks.mjs'],
  ['packages/sim-notebooks/build/bundleDeclarations.mjs'],
];

/**
 * Builds before the first test: tests run what is built, not the sources (vitest.config.ts), and must never judge
 * yesterday's program. A few seconds when nothing has changed; npm test has built already.
 */
export default function buildFirst(): void {
  if (process.env['npm_lifecycle_event'] === 'test') return;
  for (const step of STEPS) {
    const { status, stdout, stderr } = spawnSync(process.execPath, step, {
      cwd: fileURLToPath(new URL('..', import.meta.url)),
      encoding: 'utf8',
    });
    if (status !== 0) throw new Error(`${step[0]} failed, so nothing is tested:\n${stdout}${stderr}`);
  }
}
