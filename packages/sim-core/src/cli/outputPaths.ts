import {
  accessSync,
  closeSync,
  constants,
  openSync,
  readSync,
  realpathSync,
  type Stats,
  statSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { InputError, type Problem } from '../errors/index.js';

/** How the files that this program writes begin: an older one may be written over, anything else may not. */
const BEGINNINGS = {
  '--json': /^\s*\{\s*"kind":\s*"lapwright-(?!journal)/,
  '--report': /^<!doctype html>/i,
  '--csv': /^time_s,clock,module,what,/,
  // A scenario may have been worked on since it was written.
  '--into': /^$/,
} as const;

type Option = keyof typeof BEGINNINGS;

/**
 * Checks before a long run that the files to be written can be: their folder is there and may be written to, and nothing
 * is lost by it: not the scenario, not each other, not a file of another kind.
 *
 * @param paths by option; those that are undefined are not asked for
 * @throws InputError with every problem found
 */
export function checkOutputPaths(
  paths: Readonly<Partial<Record<Option, string | undefined>>>,
  scenarioFiles: readonly string[],
  journal?: string,
): void {
  const problems: Problem[] = [];
  const taken = new Map<string, string>([
    ...scenarioFiles.map((file) => [identity(file), 'the scenario file'] as const),
    ...(journal === undefined ? [] : [[identity(journal), 'the journal'] as const]),
  ]);
  for (const option of ['--json', '--report', '--csv', '--into'] as const) {
    const path = paths[option];
    if (path === undefined) continue;
    const refuse = (rule: string): void =>
      void problems.push({ code: 'unreadable', path: '', file: `${option} ${path}`, rule });
    const rule = whyNot(option, path, taken);
    if (rule !== undefined) refuse(rule);
    taken.set(identity(path), `the file of ${option}`);
  }
  if (problems.length > 0) throw new InputError(problems);
}

/** Why a path cannot be written to; undefined when it can. */
function whyNot(option: Option, path: string, taken: ReadonlyMap<string, string>): string | undefined {
  if (path === '') return 'the path is empty';
  const owner = taken.get(identity(path));
  if (owner !== undefined) return `this would overwrite ${owner}`;
  if (option === '--report' && !/\.html?$/i.test(path))
    return 'a report is a page for the browser: give it a name that ends in .html';
  if (option === '--csv' && !/\.csv$/i.test(path))
    return 'a log is a table for the spreadsheet: give it a name that ends in .csv';
  if (option === '--into' && !/\.(?:ya?ml|json)$/i.test(path))
    return 'a scenario is written: give it a name that ends in .yaml';
  if (option === '--json' && /\.ya?ml$/i.test(path))
    return 'this looks like a scenario, not like a result: give it a name that ends in .json';
  try {
    const folder = dirname(resolve(path));
    if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true)
      return `there is no folder ${dirname(path)}`;
    accessSync(folder, constants.X_OK);
    const there = statSync(path, { throwIfNoEntry: false });
    if (there === undefined) accessSync(folder, constants.W_OK);
    else return whyNotOver(option, path, there);
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException;
    return PLAIN_ERRORS[code] ?? message;
  }
  return undefined;
}

function whyNotOver(option: Option, path: string, there: Stats): string | undefined {
  if (there.isDirectory()) return 'this is a folder; name a file in it';
  accessSync(path, constants.W_OK);
  // A pipe or a device is nobody's work; a file may be.
  if (!there.isFile() || there.size === 0 || BEGINNINGS[option].test(beginning(path))) return undefined;
  return option === '--into'
    ? 'there is a file already, and it would be lost; choose another name'
    : 'there is a file of another kind already, and it would be lost; choose another name';
}

function beginning(path: string): string {
  const file = openSync(path, 'r');
  const buffer = Buffer.alloc(100);
  const length = readSync(file, buffer);
  closeSync(file);
  return buffer.toString('utf8', 0, length);
}

/** What two names of the same file have in common: links are followed. */
function identity(path: string): string {
  try {
    const there = statSync(path, { throwIfNoEntry: false });
    if (there) return `${there.dev}:${there.ino}`;
    return join(realpathSync(dirname(resolve(path))), basename(path));
  } catch {
    return resolve(path);
  }
}

const PLAIN_ERRORS: Readonly<Record<string, string>> = {
  EACCES: 'it may not be written to (no permission)',
  EPERM: 'it may not be written to (no permission)',
  EROFS: 'it may not be written to (read-only disk)',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'the path is a circle of links',
  ENOTDIR: 'a part of the path is not a folder',
};
