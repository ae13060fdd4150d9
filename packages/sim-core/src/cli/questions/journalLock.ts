import { closeSync, openSync, readFileSync, renameSync, statSync, unlinkSync, writeSync } from 'node:fs';
import { hostname, uptime } from 'node:os';

/** Who writes into a journal, as its lock says. */
export interface LockOwner {
  readonly pid: number;
  readonly host: string;
}

/** A lock that is held, or the file of it and who holds it; undefined when the file does not say. */
export type Locking =
  | { readonly held: true; readonly release: () => void }
  | { readonly held: false; readonly file: string; readonly owner: LockOwner | undefined };

/** How often a lock that was left behind is cleared away before others are taken to be quicker. */
const TRIES = 5;
/** A lock is written at once after it is made; one that says nothing after so long, in milliseconds, never will. */
const WRITING_MS = 5000;
/** Clocks that are set while a machine starts are off by less, in milliseconds. */
const SLACK_MS = 60_000;
/** Locks of this process. */
const ours = new Set<string>();

/**
 * Takes the lock of a journal, so that two processes never write into one: a file beside it with the number of the process
 * and the name of its machine. One that was left behind by a process of this machine that has ended, as after kill -9 or
 * a power cut, is cleared away; whether a process of another machine still runs cannot be seen from here.
 *
 * @throws Error of the file system when the lock cannot be written
 */
export function lockJournal(journal: string): Locking {
  const file = `${journal}.lock`;
  const text = `${JSON.stringify({ pid: process.pid, host: hostname() })}\n`;
  for (let i = 0; i < TRIES; i++) {
    if (made(file, text)) return { held: true, release: releaser(file, text) };
    const found = readLock(file);
    if (found === undefined) continue;
    if (!isLeftBehind(file, found)) return { held: false, file, owner: ownerOf(found.text) };
    clearAway(file, found.text);
  }
  return { held: false, file, owner: ownerOf(readLock(file)?.text ?? '') };
}

interface LockFile {
  readonly text: string;
  readonly writtenAt: number;
}

function made(file: string, text: string): boolean {
  let lock: number;
  try {
    lock = openSync(file, 'wx');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
  writeSync(lock, text);
  closeSync(lock);
  return true;
}

/** The lock that is there; undefined when it has just gone. */
function readLock(file: string): LockFile | undefined {
  try {
    return { writtenAt: statSync(file).mtimeMs, text: readFileSync(file, 'utf8') };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

function ownerOf(text: string): LockOwner | undefined {
  try {
    const { pid, host } = JSON.parse(text) as Partial<Record<keyof LockOwner, unknown>>;
    return Number.isSafeInteger(pid) && Number(pid) > 0 && typeof host === 'string'
      ? { pid: Number(pid), host }
      : undefined;
  } catch {
    return undefined;
  }
}

function isLeftBehind(file: string, { text, writtenAt }: LockFile): boolean {
  const now = performance.timeOrigin + performance.now();
  const owner = ownerOf(text);
  if (owner === undefined) return text === '' && now - writtenAt > WRITING_MS;
  if (owner.host !== hostname()) return false;
  // The number of a process may be given again: to this one, or after the machine has started anew.
  if (owner.pid === process.pid) return !ours.has(file);
  return !runs(owner.pid) || writtenAt < now - 1000 * uptime() - SLACK_MS;
}

function runs(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // It is there, but somebody else's.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Takes away a lock that was left behind, and none that another process has put there in the meantime. */
function clearAway(file: string, text: string): void {
  const aside = `${file}.${process.pid}`;
  try {
    renameSync(file, aside);
    const taken = readFileSync(aside, 'utf8');
    if (taken !== text) made(file, taken);
    unlinkSync(aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

function releaser(file: string, text: string): () => void {
  const release = (): void => {
    if (!ours.delete(file)) return;
    process.off('exit', release);
    if (readLock(file)?.text === text) unlinkSync(file);
  };
  ours.add(file);
  // A second Ctrl-C ends the program at once.
  process.once('exit', release);
  return release;
}
