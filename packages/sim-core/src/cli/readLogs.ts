import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import { InputError, type Problem } from '../errors/index.js';
import {
  describeLogProblem,
  type KnownModule,
  type LogProblem,
  type LogSource,
  type ReadLog,
  readLog,
} from '../logs/index.js';
import type { ModuleSpec } from '../model/spec/index.js';
import type { Scenario } from '../scenario/index.js';
import { wrap } from './layout.js';

/** Largest log, bytes: a million rows are less. */
const MOST_BYTES = 300_000_000;
/** Problems that are printed; the others are counted. */
const MOST_SHOWN = 50;

/**
 * Reads the files of a log and joins them in time order.
 *
 * @param modules those that may be in the logs; other names are told @default any name may be
 * @throws InputError when a file cannot be read, or when no row of all of them can be used
 */
export function readLogs(paths: readonly string[], modules: readonly KnownModule[] = []): ReadLog {
  const problems: Problem[] = [];
  const sources: LogSource[] = [];
  for (const file of paths) {
    const content = bytesOf(file, problems);
    if (content !== undefined) sources.push({ file, content });
  }
  if (problems.length > 0) throw new InputError(problems);
  const log = readLog(sources, { modules });
  if (log.used === 0)
    throw new InputError(
      log.problems.length > 0 ? log.problems.slice(0, MOST_SHOWN).map(asProblem) : sources.map(withoutRows),
    );
  return log;
}

/** The modules that may be in a log of a scenario: those of the loop, the spares, those on the side table. */
export function knownModules({ spec, sideTable }: Pick<Scenario, 'spec' | 'sideTable'>): KnownModule[] {
  const known =
    (spare: boolean) =>
    ({ id, builder, design, basket }: ModuleSpec): KnownModule => ({
      id,
      ...(builder !== undefined && { builder }),
      ...(design !== undefined && { design }),
      ...(basket.capacity > 0 && basket.capacity < Infinity && { basket: basket.capacity }),
      ...(spare && { spare }),
    });
  return [...spec.modules.map(known(false)), ...[...(spec.spares ?? []), ...sideTable].map(known(true))];
}

/**
 * What is told of a log that was read: how many rows count, and every row that does not, or of which a person should know.
 *
 * @param all whether all problems are listed, however many
 */
export function logReadText({ rows, used, files, problems }: ReadLog, all = false): string {
  const where = files.map(
    ({ file, where: kind, times }) =>
      `${file} (${kind}, ${times === 'clock' ? 'by the clock' : 'since the start'})`,
  );
  const out = rows - used;
  const count =
    out === 0
      ? rows === 1
        ? 'The one row counts.'
        : `All ${rows} rows count.`
      : `${used} of ${rows} rows count, ${out} ${out === 1 ? 'is' : 'are'} left out.`;
  const shown = all ? problems : problems.slice(0, MOST_SHOWN);
  const more = problems.length - shown.length;
  return [
    wrap(`Read: ${where.join('; ')}. ${count}`),
    ...shown.map(describeLogProblem),
    ...(more > 0 ? [`and ${more} more`] : []),
    '',
  ].join('\n');
}

function withoutRows({ file }: LogSource): Problem {
  const rule = 'there is no row below the names of the columns';
  return { code: 'unreadable', path: '', file, rule, hint: 'Write one for each thing that happened.' };
}

function asProblem(problem: LogProblem): Problem {
  const { file, line, found, rule, hint } = problem;
  return {
    code: 'unreadable',
    path: '',
    rule: found === '' ? rule : `found "${found.slice(0, 60)}": ${rule}`,
    file,
    ...(line !== undefined && { line }),
    ...(hint !== undefined && { hint }),
  };
}

function bytesOf(file: string, problems: Problem[]): Uint8Array | undefined {
  const refuse = (rule: string, hint?: string): undefined => {
    problems.push({ code: 'unreadable', path: '', file, rule, ...(hint !== undefined && { hint }) });
    return undefined;
  };
  let descriptor: number | undefined;
  try {
    descriptor = openSync(file, 'r');
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) return refuse('this is a folder, not a file', 'Name the log in it.');
    if (stat.size > MOST_BYTES)
      return refuse(
        `the file has ${stat.size} bytes; a log may have at most ${MOST_BYTES}`,
        'Is it the right file?',
      );
    return readFileSync(descriptor);
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT')
      return refuse(
        'there is no such file',
        'Name the log you kept; lapwright log-template prints one to begin with.',
      );
    return refuse(`the file cannot be read (${code || message})`);
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}
