import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
// The built package: worker threads run files of dist.
import { advice, parseScenario, replicate, roughCut, toRunResult } from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';
import { lapwright } from '../cli/runLapwright.js';

/** What is advised after a few shows of a scenario. */
async function advised(text: string): Promise<string> {
  const scenario = parseScenario(text);
  const { summary, stopped } = await replicate(scenario.spec, { seed: 1, replications: 3, workers: 1 });
  expect(stopped).toBeUndefined();
  const result = toRunResult(scenario, summary, { seed: 1, asked: 3 });
  return advice(result, scenario.spec, roughCut(scenario.spec)).join('\n');
}

const LOOP = `name: small loop
show: { lasts: 2 h }
charge: 40
crew: { minders: 0 }
modules:
  first: { basket: 60, cycle: 1 s, travel: 5 s }
  second: { basket: 60, cycle: 1 s, travel: 5 s }
`;
const changed = (from: string, to: string): string => LOOP.replace(from, to);

describe('advice', () => {
  it('names the module that leaks most when the balls run out', async () => {
    expect(await advised(changed('second: {', 'second: { leak: 2 %,'))).toMatch(
      /of 40 balls lie on the floor or are lost; second leaks most.*sweep/s,
    );
  });

  it('says that a loop comes to stand when a module waits for more balls than there are', async () => {
    const text = changed('first: {', 'first: { drive: demand, batch: 50, start_at: 50,');
    expect(await advised(text)).toMatch(/first waits for 50 balls, and there are 40.*Add balls/s);
  });

  it('says that a loop may come to stand when modules can keep all balls between them', async () => {
    const text = LOOP.replaceAll('basket: 60,', 'basket: 60, drive: demand, batch: 30, start_at: 30,');
    expect(await advised(text)).toMatch(/may come to stand.*keep all 40 balls/s);
  });

  it('says that nobody is there to clear a stop', async () => {
    const text = changed(
      'first: {',
      'first: { stops: { jam: { running: 10 min, crew: { notice: 5 s, walk: 5 s, clear: 30 s } } },',
    );
    expect(await advised(text)).toMatch(/a module that needs a minder then stays stopped/);
  });

  it('asks for more shows when nothing stands out in a few', async () => {
    expect(await advised(LOOP.replace('charge: 40', 'charge: 11'))).toMatch(
      /too few to say so|room for more/,
    );
  });
});

describe('check', () => {
  it('says the same before any simulation', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lapwright-advice-'));
    const file = join(folder, 'stands.yaml');
    writeFileSync(file, changed('first: {', 'first: { drive: demand, batch: 50, start_at: 50,'));
    const { stdout } = await lapwright('check', file);
    rmSync(folder, { recursive: true });
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(/first waits for 50 balls, and there are 40/);
  });
});
