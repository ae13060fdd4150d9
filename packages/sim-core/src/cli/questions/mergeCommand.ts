import { readFileSync } from 'node:fs';
import { InputError, type Problem } from '../../errors/index.js';
import { journalLine, journalSeed, readJournal, ValueTable } from '../../studies/index.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { openJournal } from './journalFile.js';

const MOST_PROBLEMS = 100;

/**
 * `lapwright merge`: puts the shows of several journals, such as those of shards, into one.
 *
 * @throws InputError with what is wrong in all of them, before anything is written
 */
export function mergeCommand(paths: readonly string[], into: string): ExitCode {
  const table = new ValueTable();
  const problems: Problem[] = [];
  const trying = <T>(read: () => T): T | undefined => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
      return undefined;
    }
  };
  const texts = paths.map((path) => trying(() => readText(path)));
  const seed =
    texts.reduce<number | undefined>((found, text) => found ?? journalSeed(text ?? ''), undefined) ?? 0;
  for (const [i, text] of texts.entries())
    if (text !== undefined) trying(() => readJournal(text, paths[i] ?? '', seed, table));
  if (problems.length > 0) throw new InputError(problems.slice(0, MOST_PROBLEMS + 1));
  const journal = openJournal(into, seed, false, '--into');
  for (const [key, replication, values] of table.shows())
    journal.append(journalLine(key, replication, values));
  journal.close();
  process.stderr.write(`Written: ${into} (${table.size} shows)\n`);
  return EXIT.ok;
}

function readText(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException;
    const rule = code === 'ENOENT' ? 'there is no such file' : `it cannot be read (${code || message})`;
    const hint = 'Name the journals that were written with --journal.';
    throw new InputError([{ code: 'unreadable', path: '', file: path, rule, hint }]);
  }
}
