import { readFileSync } from 'node:fs';
import { InputError } from '../../errors/index.js';
import { journalLine, journalSeed, readJournal, ValueTable } from '../../studies/index.js';
import { EXIT, type ExitCode } from '../exitCode.js';
import { openJournal } from './journalFile.js';

/** `lapwright merge`: puts the shows of several journals, such as those of shards, into one. */
export function mergeCommand(paths: readonly string[], into: string): ExitCode {
  const table = new ValueTable();
  const texts = paths.map((path) => readText(path));
  const seed = journalSeed(texts[0] ?? '') ?? 0;
  for (const [i, text] of texts.entries()) readJournal(text, paths[i] ?? '', seed, table);
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
    throw new InputError([
      { code: 'unreadable', path: '', file: path, rule: `it cannot be read (${(error as Error).message})` },
    ]);
  }
}
