import { createHash } from 'node:crypto';
import { closeSync, constants, fstatSync, openSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { InputError, type Problem } from '../errors/index.js';
import { nearest } from './nearest.js';
import { scenarioOf } from './parseScenario.js';
import type { Scenario } from './scenario.js';

/** Largest scenario file, bytes: a loop of two thousand modules needs less. */
export const MOST_BYTES = 1_000_000;

/**
 * Reads a scenario file in YAML or JSON.
 *
 * @param file its path
 * @throws InputError when it cannot be read or used; the message holds every problem found
 * @example
 * loadScenarioFile('scenarios/loop50.yaml').spec.modules.length // => 50
 */
export function loadScenarioFile(file: string): Scenario {
  const { text, sha256 } = readScenarioText(file);
  return scenarioOf(text, file, sha256);
}

/**
 * The text of a scenario file with the hash of its bytes.
 *
 * @throws InputError when it cannot be read
 * @example
 * readScenarioText('scenarios/loop50.yaml').sha256.length // => 64
 */
export function readScenarioText(file: string): { readonly text: string; readonly sha256: string } {
  const bytes = readBytes(file);
  return { text: decode(bytes, file), sha256: createHash('sha256').update(bytes).digest('hex') };
}

function refuse(file: string, rule: string, hint?: string): never {
  const problem: Problem = { code: 'unreadable', path: '', rule, file, ...(hint !== undefined && { hint }) };
  throw new InputError([problem]);
}

function readBytes(file: string): Buffer {
  let descriptor: number | undefined;
  try {
    // Non-blocking, so that a pipe nobody writes to is refused below instead of being waited for.
    descriptor = openSync(file, constants.O_RDONLY | constants.O_NONBLOCK);
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) refuse(file, 'this is a folder, not a file', 'Name the scenario file in it.');
    if (!stat.isFile()) refuse(file, 'this is not a plain file');
    if (stat.size > MOST_BYTES) {
      refuse(
        file,
        `the file has ${stat.size} bytes; a scenario may have at most ${MOST_BYTES}`,
        'Is it the right file?',
      );
    }
    return readFileSync(descriptor);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const rule = PLAIN_ERRORS[code] ?? `the file cannot be read (${code || String(error)})`;
    return refuse(file, rule, code === 'ENOENT' ? otherFile(file) : undefined);
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

/** What may have been meant instead of a file that is not there. */
function otherFile(file: string): string {
  if (!SCENARIO.test(file))
    return 'Name a scenario file, such as my-loop.yaml; on the command line it comes first.';
  const folder = dirname(file);
  const guess = nearest(basename(file), scenariosIn(folder));
  return guess === undefined
    ? 'Write its path from the folder you are in.'
    : `Did you mean ${folder === '.' ? guess : join(folder, guess)}?`;
}

function scenariosIn(folder: string): string[] {
  try {
    return readdirSync(folder).filter((name) => SCENARIO.test(name));
  } catch {
    return [];
  }
}

const SCENARIO = /\.(?:ya?ml|json)$/i;

const PLAIN_ERRORS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file: a part of the path is not a folder',
  EACCES: 'the file may not be read (no permission)',
  ELOOP: 'the path is a circle of links',
  ENAMETOOLONG: 'there is no such file: the name is too long',
};

function decode(bytes: Buffer, file: string): string {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    refuse(file, 'the file is in UTF-16', 'Save it as UTF-8.');
  }
  if (bytes.includes(0)) refuse(file, 'this is a binary file, not a text');
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return refuse(file, 'the text is not in UTF-8', 'Save it as UTF-8.');
  }
}
