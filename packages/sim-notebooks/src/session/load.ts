import { existsSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { parseScenario, readScenarioText, type Scenario } from '@lapwright/sim-core';
import { Loop } from './loop.js';
import { plainly } from './plainly.js';

/** What scenarios typed in a cell are called in messages. */
export const TYPED = 'typed here';

/**
 * Reads a scenario: a file, or its text right here between backticks.
 *
 * A path is looked for in the folder of the notebook and in the folders above it, so that `load('scenarios/demo.yaml')`
 * finds the scenarios of the project. `load('my-loop.yaml')` is one of your own beside the notebook.
 *
 * @param source path of a scenario file (YAML or JSON), or the text of one
 * @throws InputError with every mistake in the file: its line, what stands there, and what to write instead
 * @example
 * load('scenarios/chain-of-five.yaml').modules // => ['first', 'second', 'third', 'fourth', 'fifth']
 */
export function load(source: string): Loop {
  return plainly(() => {
    if (isText(source)) {
      const text = source.replace(/^\s*\n/, '');
      return made(text, TYPED, parseScenario(text, TYPED));
    }
    const { text, sha256 } = readScenarioText(placeOf(source));
    const read = parseScenario(text, source);
    return made(text, source, { ...read, source: { file: source, sha256 } });
  });
}

/** The loop of a text that was made, not typed. */
export function loopOf(text: string, file: string): Loop {
  return made(text, file, parseScenario(text, file));
}

function made(text: string, file: string, scenario: Scenario): Loop {
  return new Loop({ text, file, scenario, changes: [], changesInWords: [] });
}

function isText(source: string): boolean {
  return source.includes('\n') || source.trimStart().startsWith('{');
}

/** The path from here of a file that lies here or in a folder above; as it was written when there is none. */
export function placeOf(path: string): string {
  for (let folder = process.cwd(); ; folder = dirname(folder)) {
    const found = resolve(folder, path);
    if (existsSync(found)) return folder === process.cwd() ? path : relative(process.cwd(), found);
    if (folder === dirname(folder) || join(folder, path) === path) return path;
  }
}

/** A loop, or what it is to be read from. */
export type LoopSource = Loop | string;

/** The loop of whatever a verb was given. */
export function asLoop(source: LoopSource): Loop {
  return typeof source === 'string' ? load(source) : source;
}
