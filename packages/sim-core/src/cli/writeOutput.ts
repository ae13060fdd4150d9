import { constants } from 'node:fs';
import { access, chmod, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Writes a file that was asked for and says so; says what went wrong when it cannot be written. What stood there before
 * stays until the new one is whole: it is written beside it, and takes its name at the end.
 *
 * @returns whether it is written
 */
export async function writeOutput(path: string, content: () => string | Promise<string>): Promise<boolean> {
  try {
    await writeWhole(path, await content());
    process.stderr.write(`Written: ${path}\n`);
    return true;
  } catch (error) {
    process.stderr.write(`lapwright: ${path} could not be written (${(error as Error).message})\n`);
    return false;
  }
}

async function writeWhole(path: string, text: string): Promise<void> {
  const file = await fileBehind(path);
  if (file === undefined) return writeFile(path, text);
  const beside = `${file.name}.part-${process.pid}`;
  try {
    await writeFile(beside, text, { flag: 'wx' });
    if (file.mode !== undefined) await chmod(beside, file.mode);
    await rename(beside, file.name);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

/** The plain file that a path names, if need be by links, or would; undefined when another cannot take its place. */
async function fileBehind(path: string): Promise<{ name: string; mode?: number } | undefined> {
  try {
    const there = await stat(path).catch(() => undefined);
    if (there?.isFile() === false) return undefined;
    const name = there ? await realpath(path) : path;
    await access(dirname(name), constants.W_OK);
    return there ? { name, mode: there.mode } : { name };
  } catch {
    return undefined;
  }
}
