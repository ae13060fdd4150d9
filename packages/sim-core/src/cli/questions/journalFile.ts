import { closeSync, existsSync, openSync, readFileSync, statSync, truncateSync, writeSync } from 'node:fs';
import { InputError } from '../../errors/index.js';
import { journalHead, readJournal, ValueTable } from '../../studies/index.js';

/** A journal on disk: each show is in it as soon as it is finished. */
export interface JournalFile {
  /** The shows that were in it. */
  readonly table: ValueTable;
  readonly append: (line: string) => void;
  readonly close: () => void;
}

/** More is no journal of ours: some millions of shows. */
const MOST_BYTES = 500_000_000;

/**
 * Opens a journal: a new one, or with `resume` one that is there, to go on with.
 *
 * @throws InputError when it is there and not to be gone on with, or is no journal of this seed
 */
export function openJournal(
  path: string,
  seed: number,
  resume: boolean,
  option: '--journal' | '--into' = '--journal',
): JournalFile {
  const table = new ValueTable();
  const refuse = (rule: string, hint?: string): never => {
    throw new InputError([
      { code: 'unreadable', path: '', file: `${option} ${path}`, rule, ...(hint !== undefined && { hint }) },
    ]);
  };
  const there = existsSync(path);
  if (there && !statSync(path).isFile()) refuse('this is not a plain file');
  if (there && statSync(path).size > 0 && !resume)
    refuse(
      'there is a file already',
      option === '--into'
        ? 'Name a new one: nothing is written over.'
        : 'With --resume the study goes on where that journal ends.',
    );
  if (there && statSync(path).size > MOST_BYTES) refuse('this is too large for a journal');
  const bytes = there ? readFileSync(path) : Buffer.alloc(0);
  // A line that was cut off in the middle, maybe within a letter, goes; its show is simulated again.
  const whole = bytes.lastIndexOf('\n') + 1;
  readJournal(bytes.toString('utf8', 0, whole), path, seed, table);
  let file = -1;
  try {
    if (whole < bytes.length) truncateSync(path, whole);
    // Each line goes to the end as it then is, also when another study writes into the same journal.
    file = openSync(path, there ? 'a' : 'ax');
  } catch (error) {
    refuse(whyNotWritten(error as NodeJS.ErrnoException));
  }
  const append = (line: string): void => void writeSync(file, `${line}\n`);
  if (whole === 0) append(journalHead(seed));
  return { table, append, close: () => closeSync(file) };
}

function whyNotWritten({ code, message }: NodeJS.ErrnoException): string {
  return code === 'ENOENT'
    ? 'it cannot be written: there is no such folder'
    : `it cannot be written (${message})`;
}
