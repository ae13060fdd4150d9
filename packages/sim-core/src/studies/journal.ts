import { InputError, type Problem } from '../errors/index.js';
import { MEASURES, MODEL_REVISION, VERSION } from '../experiments/index.js';
import { GENERATOR } from '../random/index.js';
import type { ValueTable } from './valueTable.js';

/*
 * The journal of a study: a text file with a line for each show as it is finished, in any order. What a study says is
 * worked out from the shows alone, so that a study that was broken off, or done in pieces on several machines, says the
 * same as one in one go.
 */

const KIND = 'lapwright-journal';
/** Problems told at once; a journal with more is wrong in a way that the first ones explain. */
const MOST_PROBLEMS = 100;

/**
 * The first line of a journal, without the line end: what its shows have in common. Shows of another version of the program
 * may be other shows, so that it is named too.
 *
 * @example
 * journalHead(7).startsWith('{"kind":"lapwright-journal"') // => true
 */
export function journalHead(seed: number): string {
  return JSON.stringify({
    kind: KIND,
    format: 2,
    program: VERSION,
    model: MODEL_REVISION,
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
 * @throws InputError with every line that cannot be used: when it is no journal, or one of another seed, version, generator
 *   or list of measures, or when a show in it is another than the same show in this table
 * @example
 * readJournal(`${journalHead(7)}\n${journalLine('a', 0, [1])}\n{"s":`, 'a.journal', 7, new ValueTable()) === journalHead(7).length + 1 + journalLine('a', 0, [1]).length + 1 // => true
 */
export function readJournal(text: string, file: string, seed: number, table: ValueTable): number {
  const whole = text.lastIndexOf('\n') + 1;
  const lines = text.slice(0, whole).split('\n').slice(0, -1);
  const [head, ...rest] = lines;
  const problems: Problem[] = [];
  const report = (line: number, rule: string, hint: string): void =>
    void problems.push({ code: 'contradiction', path: '', file, line, column: 1, rule, hint });
  const wanted = journalHead(seed);
  // A head that was cut off is one that will be written again.
  if (head === undefined ? !wanted.startsWith(text) : head !== wanted) {
    report(1, ...headFault(head ?? text, seed));
  } else {
    for (const [i, line] of rest.entries()) {
      const fault = addLine(line, table, { file, line: i + 2 });
      if (fault !== undefined) report(i + 2, ...fault);
      if (problems.length > MOST_PROBLEMS) break;
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
  return kind === KIND && typeof seed === 'number' ? seed : undefined;
}

/** What is wrong, and what to do. */
type Fault = readonly [rule: string, hint: string];

function headFault(head: string, seed: number): Fault {
  const { kind, seed: found, program, model } = parsed(head) ?? {};
  if (kind !== KIND)
    return ['this is not a journal of a study', 'Name a file that was written with --journal, or a new one.'];
  if (found !== seed)
    return [
      `this journal is of seed ${String(found)}, not ${seed}`,
      `Go on with --seed ${String(found)}, or name a new journal.`,
    ];
  if (program === VERSION && model === MODEL_REVISION)
    return ['this journal was written by another build of the program', 'Name a new journal.'];
  const version = (name: unknown, revision: unknown): string =>
    typeof name === 'string' ? `version ${name} (model ${String(revision)})` : 'an older version';
  return [
    `this journal was written by ${version(program, model)} of the program, and this is ${version(VERSION, MODEL_REVISION)}: the same show may go otherwise in the two`,
    'Finish it with that version, or name a new journal: shows of both are never mixed.',
  ];
}

function addLine(
  line: string,
  table: ValueTable,
  origin: { readonly file: string; readonly line: number },
): Fault | undefined {
  const bad: Fault = ['this is not a line of a journal', 'Take the line out; its show is simulated again.'];
  const { s: key, r: replication, v: values } = parsed(line) ?? {};
  if (typeof key !== 'string' || typeof replication !== 'number' || !Array.isArray(values)) return bad;
  if (values.length === 0 || !Number.isSafeInteger(replication) || replication < 0) return bad;
  const numbers = values.map((value) => (value === null ? NaN : (value as number)));
  if (numbers.some((value) => typeof value !== 'number')) return bad;
  if (table.has(key, replication)) {
    if (same(table.row(key, replication), numbers)) return undefined;
    const other = table.origin(key, replication);
    return [
      `show ${replication} of system ${key} has other values here than ${other ? `in ${other.file}:${other.line}` : 'before'}`,
      'One of the two is wrong: take that line out, or leave out its journal; the show is simulated again.',
    ];
  }
  table.add(key, replication, numbers, origin);
  return undefined;
}

function same(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((value, i) => sameNumber(value, other[i] ?? 0));
}

/** A journal does not tell 0 from -0. */
function sameNumber(one: number, other: number): boolean {
  return one === other || (Number.isNaN(one) && Number.isNaN(other));
}

function parsed(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : undefined;
  } catch {
    return undefined;
  }
}
