import { InputError, type Problem } from '../errors/index.js';
import { MEASURES } from '../experiments/index.js';
import { GENERATOR } from '../random/index.js';
import type { ValueTable } from './valueTable.js';

/*
 * The journal of a study: a text file with a line for each show as it is finished, in any order. What a study says is
 * worked out from the shows alone, so that a study that was broken off, or done in pieces on several machines, says the
 * same as one in one go.
 */

/**
 * The first line of a journal, without the line end: what its shows have in common.
 *
 * @example
 * journalHead(7).startsWith('{"kind":"lapwright-journal"') // => true
 */
export function journalHead(seed: number): string {
  return JSON.stringify({
    kind: 'lapwright-journal',
    format: 1,
    generator: GENERATOR,
    seed,
    measures: MEASURES.map(({ id }) => id),
  });
}

/**
 * The line of one show, without the line end.
 *
 * @example
 * journalLine('abc', 3, [0.5, NaN]) // => '{"s":"abc","r":3,"v":[0.5,null]}'
 */
export function journalLine(key: string, replication: number, values: readonly number[]): string {
  return JSON.stringify({ s: key, r: replication, v: values });
}

/**
 * Adds the shows of a journal to a table. A last line that was cut off in the middle is left out.
 *
 * @param file name for messages
 * @returns how many characters of the text are whole lines
 * @throws InputError when it is no journal, or one of another seed, generator or list of measures
 * @example
 * readJournal(`${journalHead(7)}\n${journalLine('a', 0, [1])}\n{"s":`, 'a.journal', 7, new ValueTable()) === journalHead(7).length + 1 + journalLine('a', 0, [1]).length + 1 // => true
 */
export function readJournal(text: string, file: string, seed: number, table: ValueTable): number {
  const whole = text.lastIndexOf('\n') + 1;
  const lines = text.slice(0, whole).split('\n').slice(0, -1);
  const [head, ...rest] = lines;
  if (head === undefined) return 0;
  const problems: Problem[] = [];
  const report = (line: number, rule: string, hint: string): void =>
    void problems.push({ code: 'contradiction', path: '', file, line, column: 1, rule, hint });
  if (head !== journalHead(seed)) {
    report(1, headFault(head, seed), 'Go on with the same command and version, or name a new journal.');
  } else {
    for (const [i, line] of rest.entries()) {
      if (!addLine(line, table))
        report(i + 2, 'this is not a line of a journal', 'Take the line out; its show is simulated again.');
    }
  }
  if (problems.length > 0) throw new InputError(problems);
  return whole;
}

/**
 * The seed that a journal says it is of; undefined when its first line is no head of a journal.
 *
 * @example
 * journalSeed(journalHead(7)) // => 7
 */
export function journalSeed(text: string): number | undefined {
  const { kind, seed } = parsed(text.split('\n', 1)[0] ?? '') ?? {};
  return kind === 'lapwright-journal' && typeof seed === 'number' ? seed : undefined;
}

function headFault(head: string, seed: number): string {
  const found = parsed(head);
  if (found?.['kind'] !== 'lapwright-journal') return 'this is not a journal of a study';
  if (found['seed'] !== seed) return `this journal is of seed ${String(found['seed'])}, not ${seed}`;
  return 'this journal is of another version of the program';
}

function addLine(line: string, table: ValueTable): boolean {
  const { s: key, r: replication, v: values } = parsed(line) ?? {};
  if (typeof key !== 'string' || typeof replication !== 'number' || !Array.isArray(values)) return false;
  if (values.length === 0 || !Number.isSafeInteger(replication) || replication < 0) return false;
  const numbers = values.map((value) => (value === null ? NaN : (value as number)));
  if (numbers.some((value) => typeof value !== 'number')) return false;
  table.add(key, replication, numbers);
  return true;
}

function parsed(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : undefined;
  } catch {
    return undefined;
  }
}
