import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { NOTEBOOKS } from '../../packages/sim-notebooks/src/jupyter/kernelFolder.js';
import type { Output } from './kernel.js';

/** A cell of a notebook file. */
export interface Cell {
  readonly cell_type: 'code' | 'markdown';
  readonly id: string;
  readonly metadata: object;
  readonly source: readonly string[];
  execution_count?: number | null;
  outputs?: readonly Output[];
}

/** A notebook file. */
export interface Notebook {
  readonly cells: readonly Cell[];
  readonly metadata: object;
}

/** Names of all notebooks of the project. */
export const notebookNames: readonly string[] = readdirSync(NOTEBOOKS).filter((name) =>
  name.endsWith('.ipynb'),
);

export function readNotebook(name: string): Notebook {
  return JSON.parse(readFileSync(join(NOTEBOOKS, name), 'utf8')) as Notebook;
}

/** Writes a notebook as Jupyter does: one space of indent, texts in lines. */
export function writeNotebook(name: string, notebook: Notebook): void {
  writeFileSync(join(NOTEBOOKS, name), `${JSON.stringify(notebook, null, 1)}\n`);
}

/** Outputs with their texts in lines, as files keep them. */
export function inLines(outputs: readonly Output[]): Output[] {
  const lines = (text: string): string => text.split(/(?<=\n)/) as unknown as string;
  return outputs.map((output) =>
    output.output_type === 'stream'
      ? { ...output, text: lines(output.text) }
      : {
          ...output,
          data: Object.fromEntries(
            Object.entries(output.data).map(([type, content]) => [
              type,
              type.startsWith('text/') ? lines(content as string) : content,
            ]),
          ),
        },
  );
}

/**
 * What must be the same whenever a notebook is run: texts and the drawing of charts. Images in dots depend on the fonts of
 * the machine, and what is drawn is in the specification beside them.
 */
export function lasting(outputs: readonly Output[]): Output[] {
  return outputs.map((output) =>
    output.output_type === 'stream'
      ? output
      : {
          ...output,
          data: Object.fromEntries(Object.entries(output.data).filter(([type]) => type !== 'image/png')),
        },
  );
}
