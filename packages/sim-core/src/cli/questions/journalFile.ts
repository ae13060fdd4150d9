import { closeSync, existsSync, ftruncateSync, openSync, readFileSync, statSync, writeSync } from 'node:fs';
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
  const text = there ? readFileSync(path, 'utf8') : '';
  const whole = Buffer.byteLength(text.slice(0, readJournal(text, path, seed, table)));
  let file = -1;
  try {
    file = openSync(path, there ? 'r+' : 'wx');
  } catch (error) {
    refuse(`it cannot be written (${(error as Error).message})`);
  }
  // A line that was cut off in the middle goes; its show is simulated again.
  ftruncateSync(file, whole);
  let position = whole;
  const append = (line: string): void => {
    position += writeSync(file, `${line}\n`, position);
  };
  if (whole === 0) append(journalHead(seed));
  return { table, append, close: () => closeSync(file) };
}
