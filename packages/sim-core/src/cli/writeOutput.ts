import { writeFileSync } from 'node:fs';

/**
 * Writes a file that was asked for and says so; says what went wrong when it cannot be written.
 *
 * @returns whether it is written
 */
export async function writeOutput(path: string, content: () => string | Promise<string>): Promise<boolean> {
  try {
    writeFileSync(path, await content());
    process.stderr.write(`Written: ${path}\n`);
    return true;
  } catch (error) {
    process.stderr.write(`lapwright: ${path} could not be written (${(error as Error).message})\n`);
    return false;
  }
}
