import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { spread } from './spread.js';

const ROUNDS = 20;
const PROGRAM = fileURLToPath(new URL('../../bin/lapwright.js', import.meta.url));
const DEMO = fileURLToPath(new URL('../../../../scenarios/demo.yaml', import.meta.url));

/** How long a command takes from the shell, beside a Node that does nothing: in turn, wall time. */
export function benchStartUp(say: (line: string) => void): void {
  const commands = [
    { name: '--help', args: [PROGRAM, '--help'] },
    { name: 'check demo.yaml', args: [PROGRAM, 'check', DEMO] },
  ].map((command) => ({ ...command, milliseconds: [] as number[], ratios: [] as number[] }));
  for (let round = 0; round < ROUNDS; round++) {
    const nothing = wallOf(['-e', '0']);
    for (const { args, milliseconds, ratios } of commands) {
      const wall = wallOf(args);
      milliseconds.push(1000 * wall);
      ratios.push(wall / nothing);
    }
  }
  say(`start-up, ${ROUNDS} times in turn with node -e 0`);
  for (const { name, milliseconds, ratios } of commands) {
    say(`  ${name.padEnd(30)} ${spread(milliseconds, 0)} ms`);
    say(`  ${'  ratio to node -e 0'.padEnd(30)} ${spread(ratios, 2)}`);
  }
}

function wallOf(args: readonly string[]): number {
  const from = performance.now();
  execFileSync(process.execPath, args, { stdio: 'ignore' });
  return (performance.now() - from) / 1000;
}
