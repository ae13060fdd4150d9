import { accessSync, constants, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { InputError, type Problem } from '../errors/index.js';

/**
 * Checks before a long run that the files to be written can be: their folder is there and may be written to, they are no
 * folders, and they do not overwrite the scenario or each other.
 *
 * @param paths by option, such as `--report`
 * @throws InputError with every problem found
 */
export function checkOutputPaths(
  paths: Readonly<Record<string, string | undefined>>,
  scenarioFile: string,
): void {
  const problems: Problem[] = [];
  const taken = new Map<string, string>([[resolve(scenarioFile), 'the scenario file']]);
  for (const [option, path] of Object.entries(paths)) {
    if (path === undefined) continue;
    const full = resolve(path);
    const refuse = (rule: string): void =>
      void problems.push({ code: 'unreadable', path: '', file: `${option} ${path}`, rule });
    const owner = taken.get(full);
    if (owner !== undefined) refuse(`this would overwrite ${owner}`);
    taken.set(full, `the file of ${option}`);
    if (path === '') refuse('the path is empty');
    else if (statSync(full, { throwIfNoEntry: false })?.isDirectory())
      refuse('this is a folder; name a file in it');
    else if (option === '--report' && !/\.html?$/i.test(path))
      refuse('a report is a page for the browser: give it a name that ends in .html');
    else if (!writableFolder(dirname(full))) refuse('its folder does not exist or may not be written to');
  }
  if (problems.length > 0) throw new InputError(problems);
}

function writableFolder(folder: string): boolean {
  try {
    accessSync(folder, constants.W_OK);
    return statSync(folder).isDirectory();
  } catch {
    return false;
  }
}
