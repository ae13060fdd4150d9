import { replicate } from '@lapwright/sim-core';
import { scenarioSpec } from './scenarioSpec.js';

/*
 * Peak memory of a process that simulates so many shows of the demo with one worker: node growth.js 200. Prints megabytes.
 * The worker is a thread of the process, so that both are in it.
 */
await replicate(scenarioSpec('demo'), { seed: 1, replications: Number(process.argv[2]), workers: 1 });
process.stdout.write(`${(process.resourceUsage().maxRSS / 1024).toFixed(0)}\n`);
