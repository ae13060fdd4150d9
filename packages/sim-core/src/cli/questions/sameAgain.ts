import { shellWord } from '../shellWord.js';

/** Options that do not change the answer, with a value of their own, with or without one, or alone. */
const LEFT_OUT = {
  valued: ['--report', '--journal', '--workers', '-w', '--shard'],
  maybe: ['--json'],
  alone: ['--resume'],
} as const;

/**
 * The command that gives the same answer again, from the arguments as typed: without where the answer goes and who
 * works it out.
 *
 * @example
 * sameAgain(['compare', 'a.yaml', 'b.yaml', '-n', '40', '--report', 'x.html', '-w', '2', '--json']) // => 'npx lapwright compare a.yaml b.yaml -n 40'
 */
export function sameAgain(args: readonly string[]): string {
  const kept: string[] = [];
  for (let i = 0; i < args.length; i++) {
    const word = args[i] ?? '';
    const name = word.split('=', 1)[0] ?? '';
    const is = (names: readonly string[]): boolean =>
      names.includes(name) || (name !== '-w' && /^-w\d/.test(name) && names.includes('-w'));
    if (is(LEFT_OUT.alone)) continue;
    if (is(LEFT_OUT.valued)) {
      if (word === name && !/^-w\d/.test(word)) i++;
    } else if (is(LEFT_OUT.maybe)) {
      if (word === name && args[i + 1]?.startsWith('-') === false) i++;
    } else kept.push(word);
  }
  return `npx lapwright ${kept.map((word) => shellWord(word)).join(' ')}`;
}
