import { PerformanceObserver } from 'node:perf_hooks';
import { scenarioSpec } from './scenarioSpec.js';
import { median } from './spread.js';
import { timeShow } from './timeShow.js';

/*
 * How much shows of loop50 allocate, by the heap statistics of the process: run with a young generation so large that
 * little is collected meanwhile. Prints bytes of objects and of array buffers for each event (medians of several shows),
 * collections during these shows, and peak memory of the process in megabytes.
 */
const WARM_UP = 12;
const SHOWS = 7;

const spec = scenarioSpec('loop50');
for (let replication = 0; replication < WARM_UP; replication++) timeShow(spec, replication);

let collections = 0;
const observer = new PerformanceObserver((list) => {
  collections += list.getEntries().length;
});
observer.observe({ entryTypes: ['gc'] });
const objects: number[] = [];
const buffers: number[] = [];
for (let replication = 0; replication < SHOWS; replication++) {
  const before = process.memoryUsage();
  const { result } = timeShow(spec, replication);
  const after = process.memoryUsage();
  objects.push((after.heapUsed - before.heapUsed) / result.events);
  buffers.push((after.arrayBuffers - before.arrayBuffers) / result.events);
}
// Collections are told a moment later.
await new Promise((resolve) => setTimeout(resolve, 50));
observer.disconnect();

const peak = process.resourceUsage().maxRSS / 1024;
process.stdout.write(
  `${median(objects).toFixed(2)} ${median(buffers).toFixed(2)} ${collections} ${peak.toFixed(0)}\n`,
);
