import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { buildBaseline } from './baseline.js';
import { ringOf } from './ringOf.js';
import { scenarioSpec } from './scenarioSpec.js';
import { median, spread } from './spread.js';
import { benchStartUp } from './startUp.js';
import { timeShow } from './timeShow.js';
import { benchWorkers } from './workers.js';

/*
 * npm run bench: how fast the simulator is on this machine, one thread, every measure switched on. Nothing here can fail
 * because a machine is slow: it prints, and people judge.
 */
const WARM_UP = 3;
const ROUNDS = 25;
const DEMO_ROUNDS = 15;
const RING_ROUNDS = 7;
/** One show for all rings: with shorter ones for the larger rings samples would be denser in them. */
const RING_SECONDS = 2 * 3600;
/** Modules handled in a round by rings of every size, so that each has as much to do. */
const RING_MODULES = 1000;
/** Shows of the demo for which peak memory is measured; the last with --long only, which takes some minutes. */
const GROWTH = [50, 200];
const LONG_GROWTH = 1000;

const say = (line: string): void => void process.stdout.write(`${line}\n`);

function benchLoop50(): void {
  const spec = scenarioSpec('loop50');
  const baseline = buildBaseline();
  if (baseline === undefined) say('No C compiler (cc, gcc, clang) found: no comparison with the C program.');
  const ours: number[] = [];
  const perSecond: number[] = [];
  const theirs: number[] = [];
  const ratios: number[] = [];
  // In turn, so that a machine that is busy for a while slows both.
  for (let round = 0; round < WARM_UP + ROUNDS; round++) {
    const { seconds, result } = timeShow(spec, round);
    const other = baseline?.run(round + 1);
    if (round < WARM_UP) continue;
    ours.push(1000 * seconds);
    perSecond.push(result.events / seconds / 1e6);
    if (other === undefined) continue;
    theirs.push(1000 * other.seconds);
    ratios.push(seconds / other.seconds);
  }
  baseline?.remove();
  say(`loop50, 8 h, ${ROUNDS} shows; each figure is median (lowest to highest)`);
  say(`  milliseconds a show            ${spread(ours, 1)}`);
  say(`  million events a second        ${spread(perSecond, 2)}`);
  if (ratios.length === 0) return;
  say(`  C program, milliseconds a show ${spread(theirs, 1)}`);
  say(`  ratio to the C program, paired ${spread(ratios, 2)}`);
}

function benchMemory(): void {
  const program = fileURLToPath(new URL('memory.js', import.meta.url));
  const measure = (...options: string[]): string[] =>
    execFileSync(process.execPath, [...options, program], { encoding: 'utf8' })
      .trim()
      .split(' ');
  // With so much room for new objects none are collected, and growth is all that was allocated.
  const [objects, buffers, collections] = measure('--max-semi-space-size=256', '--min-semi-space-size=256');
  const [, , , peak] = measure();
  const least = collections === '0' ? '' : `, at least: ${collections} collections in between`;
  say(`  bytes allocated an event       ${objects} in objects, ${buffers} in arrays of numbers${least}`);
  say(`  peak memory of the process     ${peak} MB`);
}

function benchDemo(): void {
  const spec = scenarioSpec('demo');
  for (let round = 0; round < WARM_UP; round++) timeShow(spec, round);
  const times = Array.from({ length: DEMO_ROUNDS }, (_, round) => 1000 * timeShow(spec, round).seconds);
  say(`demo, two days, ${DEMO_ROUNDS} shows`);
  say(`  milliseconds a show            ${spread(times, 1)}`);
}

function benchRings(): void {
  say('rings of modules like those of loop50, 2 h, in turn: nanoseconds for each ball handed on by a module');
  const rings = [10, 100, 1000].map((modules) => ({
    modules,
    spec: ringOf(modules, RING_SECONDS),
    times: [] as number[],
  }));
  for (let round = 0; round < 1 + RING_ROUNDS; round++) {
    for (const { modules, spec, times } of rings) {
      const shows = Array.from({ length: RING_MODULES / modules }, (_, show) =>
        timeShow(spec, round * RING_MODULES + show),
      );
      const seconds = shows.reduce((sum, show) => sum + show.seconds, 0);
      const balls = shows.flatMap(({ result }) => [...result.modules.handedOn]).reduce((a, b) => a + b, 0);
      // The first round only warms up.
      if (round > 0) times.push((1e9 * seconds) / balls);
    }
  }
  for (const { modules, times } of rings) {
    say(`  ${String(modules).padStart(4)} modules                   ${spread(times, 0)}`);
    if (!(median(times) > 0)) throw new Error(`no ball was handed on in the ring of ${modules} modules`);
  }
  const [small, , large] = rings;
  const ratios = large?.times.map((time, round) => time / (small?.times[round] ?? NaN)) ?? [];
  say(`  ratio of 1000 to 10            ${spread(ratios, 2)}`);
}

function benchGrowth(): void {
  const program = fileURLToPath(new URL('growth.js', import.meta.url));
  say('memory of a run of the demo with one worker, at its peak');
  for (const shows of process.argv.includes('--long') ? [...GROWTH, LONG_GROWTH] : GROWTH) {
    const peak = execFileSync(process.execPath, [program, String(shows)], { encoding: 'utf8' }).trim();
    say(`  ${String(shows).padStart(4)} shows                     ${peak} MB`);
  }
}

function benchLogs(): void {
  const program = fileURLToPath(new URL('logs.js', import.meta.url));
  say('reading a log of a million rows, a process for each:');
  say('seconds, seconds of computing, megabytes of the file, peak megabytes of memory');
  for (const kind of ['bench', 'quoted', 'show', 'bad']) {
    const figures = execFileSync(process.execPath, [program, kind], { encoding: 'utf8' }).trim();
    say(`  ${kind.padEnd(30)} ${figures.split(' ').join(', ')}`);
  }
}

benchLoop50();
benchMemory();
benchDemo();
benchRings();
benchLogs();
benchStartUp(say);
await benchWorkers(say);
benchGrowth();
