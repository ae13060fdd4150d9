import { readLog } from '@lapwright/sim-core';

/*
 * How long it takes to read a log of a million rows of one kind, given as an argument: batches of a bench (`bench`), the same
 * with every cell in quotes (`quoted`), stops of a show (`show`), or rows none of which can be used (`bad`). Prints seconds,
 * seconds of computing in all threads (what counts when the machine is busy with other work), megabytes of the file, and peak memory of the process in megabytes.
 */
const ROWS = 1_000_000;
const LINES: Readonly<Record<string, { readonly head: string; readonly line: (i: number) => string }>> = {
  bench: {
    head: '# module: lantern-stairs\ntime,what,cause,count,level,note\n',
    line: (i) => `${(i * 2.7).toFixed(3)},batch,,3,${i % 10 === 0 ? '70 %' : ''},\n`,
  },
  quoted: {
    head: '# module: lantern-stairs\ntime,what,cause,count,level,note\n',
    line: (i) => `"${(i * 2.7).toFixed(3)}","batch","","3","","a ""note"""\n`,
  },
  show: {
    head: '# times: elapsed\ntime,module,what,cause\n',
    line: (i) => `${clock(3 * i)},module-${i % 50},${i % 100 < 50 ? 'stop,jam' : 'cleared,'}\n`,
  },
  bad: { head: 'time,module,what,cause\n', line: (i) => `10:00,"open,stop,${i}\n` },
};

function clock(seconds: number): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}

const kind = process.argv[2] ?? 'bench';
const { head, line } = LINES[kind] ?? { head: '', line: () => '' };
const content = Buffer.alloc(80 * ROWS);
let bytes = content.write(head);
for (let i = 0; i < ROWS; i++) bytes += content.write(line(i), bytes);

const from = performance.now();
const cpu = process.cpuUsage();
const { rows, used, problems } = readLog([{ file: 'log.csv', content: content.subarray(0, bytes) }]);
const seconds = (performance.now() - from) / 1000;
const { user, system } = process.cpuUsage(cpu);
const lost = problems.reduce((sum, problem) => sum + problem.rows, 0);
if (rows !== ROWS || used + lost !== ROWS) throw new Error(`${rows} rows, ${used} used, ${lost} left out`);
process.stdout.write(
  `${seconds.toFixed(1)} ${((user + system) / 1e6).toFixed(1)} ${(bytes / 1e6).toFixed(0)} ${(process.resourceUsage().maxRSS / 1024).toFixed(0)}\n`,
);
