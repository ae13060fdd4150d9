import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lapwright } from './runLapwright.js';

const schema = JSON.parse(readFileSync('packages/sim-core/schema/answer.schema.json', 'utf8')) as object;
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);

/** One stop in half an hour, cleared within half a minute on average; to run over it takes minutes. */
const QUIET = `
name: Quiet corner
show: { lasts: 1 h }
feed: { steady: 0.8 bps }
crew: { minders: 1, notice: 10 s, walk: 15 s }
modules:
  old-mill:
    basket: 120
    cycle: 1 s
    travel: 6 s
    stops: { jam: { running: { exponential: { mean: 30 min } }, crew: { clear: { exponential: { mean: 30 s } } } } }
  last-lift: { basket: { balls: 30, when_full: { back_up: { holds: 30 } } }, cycle: 0.9 s, travel: 6 s }
`;

let folder: string;
const file = (): string => join(folder, 'quiet.yaml');
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lapwright-rare-'));
  writeFileSync(file(), QUIET);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('lapwright how-rare', () => {
  it('answers in the form of the schema, the same with any number of workers, and names the method', async () => {
    const ask = ['how-rare', file(), 'old-mill', '-n', '60', '--json'];
    const one = await lapwright(...ask, '--workers', '1');
    expect(one.code).toBe(0);
    const answer = JSON.parse(one.stdout) as { sentence: string; details: { method: string } };
    expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
    expect(answer.details.method).toBe('splitting');
    expect(answer.sentence).toContain('by multilevel splitting');
    expect((await lapwright(...ask, '--workers', '2')).stdout).toBe(one.stdout);
  });

  it('says which module there is not, and which cannot run over', async () => {
    const none = await lapwright('how-rare', file(), 'old-mil');
    expect(none.code).toBe(2);
    expect(none.stderr).toContain('<module>: found "old-mil", but this must be a module of the loop.');
    expect(none.stderr).toContain('old-mill');
    const full = await lapwright('how-rare', file(), 'last-lift');
    expect(full.code).toBe(2);
    expect(full.stderr).toContain(
      'the basket of last-lift cannot run over: it has no limit, or holds back what comes',
    );
  });
});
