import { PerformanceObserver } from 'node:perf_hooks';
import { scenarioSpec } from './scenarioSpec.js';
import { timeShow } from './timeShow.js';

/*
 * How much one show of loop50 allocates, by the heap statistics of the process: run with --expose-gc and with a young
 * generation so large that nothing is collected during the show (if it is, this says so). Prints bytes of objects and of
 * array buffers for each event, collections during the show, and peak memory of the process in megabytes.
 */
const WARM_UP = 20;

const spec = scenarioSpec('loop50');
for (let replication = 0; replication < WARM_UP; replication++) timeShow(spec, replication);
globalThis.gc?.();
await new Promise((resolve) => setTimeout(resolve, 50));

let collections = 0;
const observer = new PerformanceObserver((list) => {
  collections += list.getEntries().length;
});
observer.observe({ entryTypes: ['gc'] });
const before = process.memoryUsage();
const { result } = timeShow(spec, WARM_UP);
const after = process.memoryUsage();
await new Promise((resolve) => setTimeout(resolve, 50));
observer.disconnect();

const objects = (after.heapUsed - before.heapUsed) / result.events;
const buffers = (after.arrayBuffers - before.arrayBuffers) / result.events;
const peak = process.resourceUsage().maxRSS / 1024;
process.stdout.write(`${objects.toFixed(3)} ${buffers.toFixed(3)} ${collections} ${peak.toFixed(0)}\n`);
