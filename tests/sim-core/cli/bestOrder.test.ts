import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, describe, expect, it } from 'vitest';
import { applyChanges, reorder } from '../../../packages/sim-core/src/index.js';
import { typed } from '../changes/smallLoop.js';
import { killedAtRandom } from './killedAtRandom.js';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-best-order-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const schema = JSON.parse(readFileSync('packages/sim-core/schema/answer.schema.json', 'utf8')) as object;
const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);

/** The tipper lets twelve balls go at once: into the little basket of the cup most of them fall, into any other none. */
const FILE = at('tipping.yaml');
writeFileSync(
  FILE,
  `name: Tipping
show: { lasts: 30 min }
charge: 40
templates:
  lift: { builder: Perrin, basket: 60, cycle: { lognormal: { mean: 0.8 s, cv: 0.1 } }, travel: 3 s }
modules:
  gate: { like: lift }
  wheel: { like: lift, builder: Maudlin }
  tipper: { like: lift, builder: Maudlin, drive: demand, start_at: 12, batch: 12, cycle: 4 s }
  cup: { like: lift, builder: Quillon, basket: 6 }
  stair: { like: lift, builder: Quillon }
  screw: { like: lift }
crew: { minders: 1, sweep: { every: 2 min, into: gate } }
`,
);
const STUDY = ['best-order', FILE, '--budget', '250', '--json'];

interface Details {
  readonly order: string[];
  readonly order_before: string[];
  readonly verdict: string;
  readonly steps: { module: string; side: string; beside: string }[];
  readonly rules: string[];
  readonly gain: { low: number; replications: number } | null;
}

async function detailsOf(...more: readonly string[]): Promise<Details> {
  const { code, stdout } = await lapwright(...STUDY, ...more);
  expect(code).toBe(0);
  const answer = JSON.parse(stdout) as { details: Details };
  expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
  return answer.details;
}

const follows = (order: readonly string[], a: string, b: string): boolean =>
  order[(order.indexOf(b) + 1) % order.length] === a;

describe('lapwright best-order', () => {
  it('gets the little basket out of the way of the tipper, and says how', async () => {
    const { order, order_before: before, verdict, steps, gain } = await detailsOf();
    expect(verdict).toBe('better');
    expect(gain?.low).toBeGreaterThan(0);
    expect(follows(order, 'cup', 'tipper')).toBe(false);
    expect(order[0]).toBe('gate');
    // The options of compare lead to just that order, and the scenario is what they make of it.
    const words = steps.flatMap(({ module, side, beside }) => ['--move', module, `--${side}`, beside]);
    const changed = applyChanges(FILE, typed(...words));
    expect(changed.spec.modules.map(({ id }) => id)).toEqual(order);
    expect(reorder(FILE)(order)).toEqual(changed.spec);
    expect(before).toEqual(['gate', 'wheel', 'tipper', 'cup', 'stair', 'screw']);
  });

  it('prints and reports the orders, the moves and what to type', async () => {
    const report = at('order.html');
    const { stdout } = await lapwright('best-order', FILE, '--budget', '250', '--report', report);
    expect(stdout).toMatch(/^There is a better order, for which \d of 6 modules (is|are) carried elsewhere:/);
    expect(stdout).toMatch(/--move \S+ --after \S+\n/);
    expect(stdout).toMatch(/order: \[gate,/);
    const html = readFileSync(report, 'utf8');
    expect(html).toMatch(/From today’s order to the new one/);
    expect(html).toMatch(/What the moves bring/);
  });

  it('keeps rules that are typed and those of the file, and says which', async () => {
    const typedRules = await detailsOf(
      '--fix',
      'gate,cup',
      '--together',
      'wheel,tipper',
      '--apart',
      'screw,cup',
    );
    expect(typedRules.rules).toEqual([
      'gate stays in place 1',
      'cup stays in place 4',
      'wheel, tipper stay together',
      'screw and cup are never side by side',
    ]);
    expect(typedRules.order[3]).toBe('cup');
    const ruled = at('ruled.yaml');
    writeFileSync(
      ruled,
      `${readFileSync(FILE, 'utf8')}table: { together: builders, never_right_after: { gate: [stair] }, never_behind: { wheel: [cup] } }\n`,
    );
    const { stdout } = await lapwright('best-order', ruled, '--budget', '60', '--json');
    const { details } = JSON.parse(stdout) as { details: Details };
    expect(details.rules).toEqual([
      'gate stays in place 1',
      'the modules of Perrin stay together',
      'the modules of Maudlin stay together',
      'the modules of Quillon stay together',
      'gate is never right after stair',
      'wheel is never behind cup',
    ]);
    expect(details.order.indexOf('wheel')).toBeLessThan(details.order.indexOf('cup'));
    // The rules are no part of what is simulated.
    const run = async (file: string): Promise<string> => (await lapwright('run', file, '-n', '3')).stdout;
    expect(await run(ruled)).toBe(await run(FILE));
  });

  it('begins with an order that keeps the rules where today’s does not, and says so', async () => {
    const { stdout } = await lapwright(
      'best-order',
      FILE,
      '--budget',
      '60',
      '--apart',
      'tipper,cup',
      '--json',
    );
    expect(JSON.parse(stdout)).toMatchObject({
      details: { broken_today: ['tipper and cup are never side by side'] },
    });
  });

  it('gives the same bytes with 1 and 2 workers, and broken off at random ten times and gone on', async () => {
    const whole = (await lapwright(...STUDY, '--workers', '1')).stdout;
    expect((await lapwright(...STUDY, '--workers', '2')).stdout).toBe(whole);
    const journal = at('killed.journal');
    expect(await killedAtRandom(STUDY, journal, { times: 10, most: 2500 })).toBeGreaterThan(4);
    const resumed = await lapwright(...STUDY, '--journal', journal, '--resume');
    expect([resumed.code, resumed.stdout]).toEqual([0, whole]);
  });

  it.each<[string, string[], RegExp]>([
    [
      'unknown modules, all at once',
      ['--fix', 'gaet', '--apart', 'cup,tiper'],
      /gaet.*gate\?[\s\S]*tiper.*tipper\?/,
    ],
    ['one module together', ['--together', 'cup'], /two modules or more are needed/],
    ['three apart', ['--apart', 'cup,stair,gate'], /two modules are needed with a comma/],
    ['one twice', ['--apart', 'cup,cup'], /a module is named twice/],
    [
      'rules that contradict each other',
      ['--fix', 'wheel,tipper,screw', '--never-right-after', 'tipper,wheel'],
      /no order was found that keeps all of these at once: wheel stays in place 2; tipper stays in place 3; tipper is never right after wheel\. Take one of them out/,
    ],
    [
      'rules that ask for more moves than there may be',
      ['--moves', '1', '--never-behind', 'screw,stair', '--never-behind', 'cup,tipper'],
      /--moves: found 1, but this must be 2 or more/,
    ],
    ['too few shows', ['--budget', '39'], /from 40 to/],
  ])('refuses %s with code 2', async (_, args, message) => {
    const { code, stdout, stderr } = await lapwright('best-order', FILE, ...args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at .*:\d+:\d+/);
  });
});
