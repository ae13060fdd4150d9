import { spawn, type ChildProcess } from 'node:child_process';
import { createRequire } from 'node:module';
import { vi } from 'vitest';
import type { main as Main } from '../../../packages/sim-core/src/cli/main.js';
import type * as programs from '../../programs/importBuilt.cjs';

const { importBuilt } = createRequire(import.meta.url)('../../programs/importBuilt.cjs') as typeof programs;

/** What a finished command left behind. */
export interface Finished {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** A command in a process of its own. */
export interface Started {
  readonly child: ChildProcess;
  /** Settles when it has ended. */
  readonly finished: Promise<Finished>;
  /** Settles when it has written something of this kind to its standard error; rejects when it ends without. */
  readonly told: (pattern: RegExp) => Promise<void>;
}

/** Makes a process show its progress as on a terminal. */
const ON_A_TERMINAL = '--import=data:text/javascript,process.stderr.isTTY=true';

/** Starts the command in a process of its own. */
export function start(
  args: readonly string[],
  {
    cwd,
    stdout: to = 'pipe',
    progress = false,
  }: { readonly cwd?: string; readonly stdout?: 'pipe' | number; readonly progress?: boolean } = {},
): Started {
  const bin = new URL('../../../packages/sim-core/bin/lapwright.js', import.meta.url).pathname;
  const child = spawn(process.execPath, [...(progress ? [ON_A_TERMINAL] : []), bin, ...args], {
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
  const told = (pattern: RegExp): Promise<void> =>
    new Promise((resolve, reject) => {
      const look = (): void => {
        if (pattern.test(stderr)) resolve();
      };
      child.stderr?.on('data', look);
      child.on('close', () => reject(new Error(`it has not said ${pattern}, but: ${stderr}`)));
      look();
    });
  return { child, finished, told };
}

/** The built command line, as the program starts it. */
const built = new URL('../../../packages/sim-core/dist/bundle/main.js', import.meta.url).href;
let before: Promise<unknown> = Promise.resolve();

/**
 * Runs the built command to its end, in the process of the test: it is started much faster so. What it gives back is what
 * the process would end with. One after the other, as there is one output to write to.
 */
export function lapwright(...args: readonly string[]): Promise<Finished> {
  const finished = before.then(() => here(args));
  before = finished.catch(() => undefined);
  return finished;
}

async function here(args: readonly string[]): Promise<Finished> {
  const { main } = (await importBuilt(built)) as { readonly main: typeof Main };
  const [out, err] = [listenTo(process.stdout), listenTo(process.stderr)];
  try {
    const code = await main(args);
    return { code, stdout: out.text(), stderr: err.text() };
  } finally {
    out.end();
    err.end();
  }
}

/** Takes what is written to a stream, instead of the stream. */
function listenTo(stream: NodeJS.WriteStream): { readonly text: () => string; readonly end: () => void } {
  const listeners = stream.listeners('error') as ((error: Error) => void)[];
  let text = '';
  const write = vi.spyOn(stream, 'write').mockImplementation((part) => {
    text += typeof part === 'string' ? part : Buffer.from(part).toString();
    return true;
  });
  return {
    text: () => text,
    end: () => {
      write.mockRestore();
      for (const listener of stream.listeners('error') as ((error: Error) => void)[])
        if (!listeners.includes(listener)) stream.off('error', listener);
    },
  };
}
