import { afterAll, expect, it } from 'vitest';
import { Kernel } from './kernel.js';

/** Aimed at: under four seconds from opening a notebook to its first picture. Printed, not asserted: machines differ. */
let kernel: Kernel | undefined;
afterAll(() => kernel?.close());

it('a picture comes soon after a notebook is opened', async () => {
  const started = performance.now();
  const since = (): string => ((performance.now() - started) / 1000).toFixed(1);
  kernel = await Kernel.start();
  const ready = since();
  const { status, outputs } = await kernel.execute(
    "import * as tslab from 'tslab';\nimport { connect, show, run } from '@lapwright/sim-notebooks';\nconnect(tslab);\nawait show(run('scenarios/chain-of-five.yaml', { replications: 20 }));",
  );
  expect(status).toBe('ok');
  expect(JSON.stringify(outputs)).toContain('data:image/svg+xml');
  process.stdout.write(`kernel ready after ${ready} s, first chart of 20 shows after ${since()} s\n`);
});
