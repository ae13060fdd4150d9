import { execFile, execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

/** The hand-written C program, built in a folder of its own. */
export interface Baseline {
  /** Simulates one show; seconds of computing, events and balls counted. */
  run(seed: number): { readonly seconds: number; readonly events: number; readonly passes: number };
  /** Seconds of computing of so many shows in a row, as a process beside others. */
  series(shows: number): Promise<number>;
  /** Removes what was built. */
  remove(): void;
}

/** Builds loop50.c with -O3; undefined when there is no C compiler. */
export function buildBaseline(): Baseline | undefined {
  const compiler = ['cc', 'gcc', 'clang'].find(works);
  if (compiler === undefined) return undefined;
  const folder = mkdtempSync(join(tmpdir(), 'lapwright-bench-'));
  const program = join(folder, 'loop50');
  const source = fileURLToPath(new URL('../loop50.c', import.meta.url));
  execFileSync(compiler, ['-O3', source, '-lm', '-o', program]);
  return {
    run: (seed) => {
      const [seconds, events, passes] = execFileSync(program, [String(seed)], { encoding: 'utf8' })
        .split(' ')
        .map(Number);
      return { seconds: seconds ?? NaN, events: events ?? NaN, passes: passes ?? NaN };
    },
    series: async (shows) => {
      let sum = 0;
      for (let seed = 1; seed <= shows; seed++) {
        const { stdout } = await promisify(execFile)(program, [String(seed)]);
        sum += Number(stdout.split(' ')[0]);
      }
      return sum;
    },
    remove: () => rmSync(folder, { recursive: true }),
  };
}

function works(compiler: string): boolean {
  try {
    execFileSync(compiler, ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
