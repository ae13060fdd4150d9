import {
  closeSync,
  existsSync,
  openSync,
  readFileSync,
  realpathSync,
  statSync,
  truncateSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { InputError, LimitError } from '../../errors/index.js';
import { journalHead, readJournal, ValueTable } from '../../studies/index.js';
import { type LockOwner, lockJournal } from './journalLock.js';

/** A journal on disk: each show is in it as soon as it is finished. */
export interface JournalFile {
  /** The shows that were in it. */
  readonly table: ValueTable;
  readonly append: (line: string) => void;
  readonly close: () => void;
}

/** More is no journal of ours: some millions of shows. */
const MOST_BYTES = 500_000_000;

type JournalOption = '--journal' | '--into';

/**
 * Opens a journal: a new one, or with `resume` one that is there, to go on with. Until it is closed no other process can.
 *
 * @throws InputError when it is there and not to be gone on with, is no journal of this seed and version, or another
 *   process writes into it
 */
export function openJournal(
  path: string,
  seed: number,
  resume: boolean,
  option: JournalOption = '--journal',
): JournalFile {
  const refuse = (rule: string, hint?: string): never => {
    throw new InputError([
      { code: 'unreadable', path: '', file: `${option} ${path}`, rule, ...(hint !== undefined && { hint }) },
    ]);
  };
  const there = existsSync(path);
  if (there && !statSync(path).isFile()) refuse('this is not a plain file');
  const unlock = locked(path, there, refuse);
  try {
    return opened(path, seed, resume, option, refuse, unlock);
  } catch (error) {
    unlock();
    throw error;
  }
}

type Refuse = (rule: string, hint?: string) => never;

function opened(
  path: string,
  seed: number,
  resume: boolean,
  option: JournalOption,
  refuse: Refuse,
  unlock: () => void,
): JournalFile {
  const table = new ValueTable();
  // Looked at again: another process may have made it just before the lock was free.
  const there = existsSync(path);
  const { size } = there ? statSync(path) : { size: 0 };
  if (size > 0 && !resume)
    refuse(
      'there is a file already',
      option === '--into'
        ? 'Name a new one: nothing is written over.'
        : 'With --resume the study goes on where that journal ends.',
    );
  if (size > MOST_BYTES) refuse('this is too large for a journal');
  const bytes = there ? readFileSync(path) : Buffer.alloc(0);
  readJournal(bytes.toString('utf8'), path, seed, table);
  // A line that was cut off in the middle, maybe within a letter, goes; its show is simulated again.
  const whole = bytes.lastIndexOf('\n') + 1;
  let file = -1;
  try {
    if (whole < bytes.length) truncateSync(path, whole);
    file = openSync(path, there ? 'a' : 'ax');
  } catch (error) {
    refuse(whyNotWritten(error as NodeJS.ErrnoException));
  }
  const append = appender(file, path);
  if (whole === 0) append(journalHead(seed));
  return {
    table,
    append,
    close: () => {
      closeSync(file);
      unlock();
    },
  };
}

/** Takes the lock of a journal, or says who has it. */
function locked(path: string, there: boolean, refuse: Refuse): () => void {
  try {
    // By whatever links it is named.
    const locking = lockJournal(there ? realpathSync(path) : path);
    if (locking.held) return locking.release;
    return refuse(holderWords(locking.owner), hintFor(locking.owner, locking.file));
  } catch (error) {
    if (error instanceof InputError) throw error;
    return refuse(whyNotWritten(error as NodeJS.ErrnoException));
  }
}

function holderWords(owner: LockOwner | undefined): string {
  if (owner === undefined) return 'another process writes into this journal';
  const where = owner.host === hostname() ? '' : ` on the machine ${owner.host}`;
  return `process ${owner.pid}${where} writes into this journal`;
}

function hintFor(owner: LockOwner | undefined, file: string): string {
  const process = owner === undefined ? 'it' : `process ${owner.pid}`;
  return `Wait until it has finished, stop it, or name another journal for this study. If ${process} is no question of this program any more, delete ${file}.`;
}

/** Writes whole lines; once one could not be written none is, so that no line begins in the middle of another. */
function appender(file: number, path: string): (line: string) => void {
  let failed: LimitError | undefined;
  return (line) => {
    if (failed) throw failed;
    const bytes = Buffer.from(`${line}\n`);
    try {
      for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
    } catch (error) {
      failed = new LimitError(
        `the journal ${path} could not be written to any more (${(error as Error).message}); free some space, then go on with --resume`,
      );
      throw failed;
    }
  };
}

function whyNotWritten({ code, message }: NodeJS.ErrnoException): string {
  return code === 'ENOENT'
    ? 'it cannot be written: there is no such folder'
    : `it cannot be written (${message})`;
}
