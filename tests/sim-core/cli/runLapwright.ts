import { spawn, type ChildProcess } from 'node:child_process';

/** What a finished command left behind. */
export interface Finished {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Starts the command; `finished` settles when it has ended. */
export function start(
  args: readonly string[],
  { cwd, stdout: to = 'pipe' }: { readonly cwd?: string; readonly stdout?: 'pipe' | number } = {},
): { readonly child: ChildProcess; readonly finished: Promise<Finished> } {
  const bin = new URL('../../../packages/sim-core/bin/lapwright.js', import.meta.url).pathname;
  const child = spawn(process.execPath, [bin, ...args], {
    stdio: ['ignore', to, 'pipe'],
    ...(cwd !== undefined && { cwd }),
  });
  let stdout = '';
  let stderr = '';
  child.stdout?.on('data', (part: Buffer) => (stdout += part.toString()));
  child.stderr?.on('data', (part: Buffer) => (stderr += part.toString()));
  const finished = new Promise<Finished>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
  return { child, finished };
}

/** Runs the command to its end. */
export function lapwright(...args: readonly string[]): Promise<Finished> {
  return start(args).finished;
}
