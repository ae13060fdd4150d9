import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Kernel } from './kernel.js';
import { type Cell, inLines, lasting, notebookNames, readNotebook, writeNotebook } from './notebookFile.js';

/*
 * Every notebook is run in a kernel of its own, from the top down, and must say and draw what is saved in it. With
 * SAVE_NOTEBOOKS=1 (npm run notebooks:save) what it says is saved instead.
 */
const saving = process.env['SAVE_NOTEBOOKS'] === '1';

/** Seconds a whole notebook may take here; on a quiet machine it is a few. */
const LIMIT = 240_000;

it('there are notebooks', () => {
  expect(notebookNames.length).toBeGreaterThan(0);
});

describe.each(notebookNames)('%s', (name) => {
  const notebook = readNotebook(name);
  let kernel: Kernel;
  beforeAll(async () => {
    kernel = await Kernel.start();
  });
  afterAll(() => kernel.close());

  it(
    saving ? 'is run and saved' : 'says and draws what is saved in it',
    async () => {
      const started = performance.now();
      const cells: Cell[] = [];
      const chart: number[] = [];
      for (const cell of notebook.cells) {
        if (cell.cell_type !== 'code') {
          cells.push(cell);
          continue;
        }
        const code = cell.source.join('');
        const { status, outputs } = await kernel.execute(code, { limit: LIMIT });
        const said = outputs.map((output) => (output.output_type === 'stream' ? output.text : '')).join('');
        expect(status, `${code}\n${said}`).toBe('ok');
        const found = inLines(outputs);
        if (JSON.stringify(found).includes('data:image/svg')) chart.push(performance.now() - started);
        if (!saving) expect(lasting(found), code).toEqual(lasting(cell.outputs ?? []));
        // Numbers of executions and times are of this run only; they are not kept.
        cells.push({ ...cell, execution_count: null, outputs: found });
      }
      const seconds = (milliseconds: number): string => (milliseconds / 1000).toFixed(1);
      process.stdout.write(
        `${name}: first chart after ${seconds(chart[0] ?? NaN)} s, all of it ${seconds(performance.now() - started)} s\n`,
      );
      if (saving) writeNotebook(name, { ...notebook, cells });
    },
    LIMIT,
  );

  it('keeps nothing of the machine it was run on', () => {
    const text = JSON.stringify(readNotebook(name));
    expect(/(?:\/(?:home|Users|root|work|tmp)\/|[A-Z]:\\\\)[^"\s]*/.exec(text)?.[0]).toBeUndefined();
    expect(/"execution_count":(?!null)/.exec(text)).toBeNull();
    expect(/"(?:execution|collapsed|scrolled)"/.exec(text)).toBeNull();
  });
});
