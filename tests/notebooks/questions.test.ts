import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lapwright } from '../sim-core/cli/runLapwright.js';
import { type Executed, Kernel } from './kernel.js';

/*
 * The questions that decide something before a show, typed into a cell of a real kernel: each is also asked on the command
 * line, in its words, and must give the same bytes.
 */

const folder = mkdtempSync(join(tmpdir(), 'lapwright-questions-'));
afterAll(() => rmSync(folder, { recursive: true }));
// Two hours of it: the answers are compared with each other, not with the loop.
const THREADS = join(folder, 'pull-and-spare.yaml');
writeFileSync(
  THREADS,
  readFileSync('scenarios/pull-and-spare.yaml', 'utf8').replace('lasts: 6 h', 'lasts: 2 h'),
);
const CHAIN = 'scenarios/chain-of-five.yaml';

const FIRST_CELL = `import * as tslab from 'tslab';
import { bestOf, bestOrder, change, connect, floodCard, howMany, howRare, inline, load, show, spares, whenItStops } from '@lapwright/sim-notebooks';
connect(tslab);
const threads = load('${THREADS}');
const chain = load('scenarios/chain-of-five.yaml');
const bench = load('scenarios/bench-one.yaml');`;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await Kernel.start();
  expect((await kernel.execute(FIRST_CELL)).status).toBe('ok');
});
afterAll(() => kernel.close());

function printed({ outputs }: Executed): string {
  return outputs.map((output) => (output.output_type === 'stream' ? output.text : '')).join('');
}

describe('a question in a cell gives the same bytes as on the command line', () => {
  it.each<[code: string, args: readonly string[]]>([
    [
      "inline(threads, 'gold-thread', { rule: { spills_per_hour: 40, overflow_risk: '50 %' }, after: 'spool', spare: 'rope', replications: 4 })",
      [
        ...`inline ${THREADS} gold-thread --rule spills_per_hour=40 --after spool --spare rope -n 4`.split(
          ' ',
        ),
        '--rule',
        'overflow_risk=50 %',
      ],
    ],
    [
      "inline(change(threads, '--set charge=90'), 'gold-thread', { rule: { spills_per_hour: 40 }, places: ['spool', 'bobbin'], search: 6, replications: 4 })",
      `inline ${THREADS} gold-thread --set charge=90 --rule spills_per_hour=40 --places spool,bobbin --search 6 -n 4`.split(
        ' ',
      ),
    ],
    [
      "bestOf([threads, threads.set('charge', 90), threads.swap('bobbin', 'spool')], { replications: 12, zone: 3, confidence: '90 %' })",
      [
        ...`best-of ${THREADS} -n 12 --zone 3 --confidence 0.9`.split(' '),
        '--variant',
        '--set charge=90',
        '--variant',
        '--swap bobbin,spool',
      ],
    ],
    [
      "bestOf({ 'as it is': threads, more: threads.set('charge', 90) }, { replications: 12, independent: true })",
      [...`best-of ${THREADS} -n 12 --independent`.split(' '), '--variant', 'more: --set charge=90'],
    ],
    [
      "bestOf([chain, bench], { replications: 10, on: 'throughput_bps' })",
      `best-of ${CHAIN} scenarios/bench-one.yaml -n 10 --on throughput_bps`.split(' '),
    ],
    [
      "bestOrder(chain, { fix: ['first'], together: [['second', 'third']], neverBehind: ['fifth,fourth'], moves: 2, budget: 40, on: 'throughput_bps' })",
      `best-order ${CHAIN} --fix first --together second,third --never-behind fifth,fourth --moves 2 --budget 40 --on throughput_bps`.split(
        ' ',
      ),
    ],
    ["howMany(threads, 'balls', { replications: 4 })", `how-many ${THREADS} balls -n 4`.split(' ')],
    [
      "howMany(threads, 'minders', { values: [1, 2, 3], on: 'spills_per_hour', limit: 40, replications: 4 })",
      `how-many ${THREADS} minders --values 1,2,3 --on spills_per_hour --limit 40 -n 4`.split(' '),
    ],
    [
      "howMany(chain, 'basket fifth', { from: 30, to: 60, step: 15, margin: 2, replications: 4 })",
      `how-many ${CHAIN} basket fifth --from 30 --to 60 --step 15 --margin 2 -n 4`.split(' '),
    ],
    [
      "howMany(threads, 'crew.walk', { values: ['10 s', '20 s'], least: true, replications: 4 })",
      [...`how-many ${THREADS} crew.walk -n 4 --least --values`.split(' '), '10 s,20 s'],
    ],
    ['spares(threads, { replications: 6, margin: 5 })', `spares ${THREADS} -n 6 --margin 5`.split(' ')],
    [
      "whenItStops(chain, 'second', { for: '2 min', at: '10:30', watch: '10 min', sure: '90 %', swapTakes: 60, replications: 6 })",
      `when-stops ${CHAIN} second --for 2min --at 10:30 --watch 10min --sure 90% --swap-takes 1min -n 6`.split(
        ' ',
      ),
    ],
    [
      "whenItStops(threads, 'bobbin', { clearedIn: '1 min', levels: { bobbin: 40, spool: 20 }, replications: 6 })",
      `when-stops ${THREADS} bobbin --cleared-in 1min --levels bobbin=40,spool=20 -n 6`.split(' '),
    ],
    [
      "floodCard(chain, { replications: 4, moments: 3, watch: '10 min' })",
      `flood-card ${CHAIN} -n 4 --moments 3 --watch 10min`.split(' '),
    ],
    ["howRare(chain, 'second', { replications: 3 })", `how-rare ${CHAIN} second -n 3`.split(' ')],
  ])('%s', async (code, args) => {
    const { stdout } = await lapwright(...args, '--json');
    expect(stdout).toContain('lapwright-answer');
    const done = await kernel.execute(`console.log((await ${code}).json().trimEnd());`);
    expect(done.status, printed(done)).toBe('ok');
    expect(JSON.parse(printed(done))).toEqual(JSON.parse(stdout));
    expect(printed(done)).toBe(stdout);
  });

  it('of a loop that was changed before, as of a file that says the same', async () => {
    const asked = "{ values: ['10 s', '20 s'], on: 'throughput_bps', margin: 0, replications: 4 }";
    const both = await kernel.execute(`
const text = threads.origin.text;
const written = load(text.replace('charge: 80', 'charge: 70'));
const changed = load(text).set('charge', 70);
const one = await howMany(written, 'crew.walk', ${asked});
const other = await howMany(changed, 'crew.walk', ${asked});
const order = { budget: 40, moves: 1 };
const rules = { rule: { spills_per_hour: 40 }, replications: 4, search: 8, anywhere: true };
console.log(JSON.stringify([
  written.scenario.spec.supply, one.sentence, one.answer.details,
  (await bestOrder(written, order)).answer.details, (await inline(written, 'bobbin', rules)).answer.details]));
console.log(JSON.stringify([
  changed.scenario.spec.supply, other.sentence, other.answer.details,
  (await bestOrder(changed, order)).answer.details, (await inline(changed, 'bobbin', rules)).answer.details]));`);
    expect(both.status, printed(both)).toBe('ok');
    const [first = '', second = '', ...rest] = printed(both).trimEnd().split('\n');
    expect(rest).toEqual([]);
    expect(first.length).toBeGreaterThan(1000);
    expect(second).toBe(first);
  });
});

describe('a mistake in a question is told in the words of the cell', () => {
  it.each<[string, RegExp]>([
    [
      "inline(threads, 'gold-tread', { rule: { spills_per_hour: 40 } })",
      /no module "gold-tread".*Did you mean gold-thread\?/,
    ],
    ["inline(threads, 'gold-thread')", /the house has no rules.*or add rule: \{ spills_per_hour: 80 \}/],
    [
      "inline(threads, 'gold-thread', { after: 'spool', anywhere: true })",
      /^anywhere: where it goes is said twice, here and by after\. Leave one of them out\.\n$/,
    ],
    [
      "inline(threads, 'gold-thread', { rule: { spills_per_hour: 4 }, spare: 'rop' })",
      /spare: there is no spare "rop" here/,
    ],
    ['bestOf([threads])', /^there is nothing to choose from\. Name two loops or more/],
    ['bestOf([threads, threads])', /^two of them are called "as it is"\. Take one out/],
    [
      "bestOf([threads, threads.set('charge', 90)], { replications: 5 })",
      /^replications: found 5, but this must be 10 or more/,
    ],
    [
      "bestOf([threads, threads.set('charge', 90)], { confidence: 95 })",
      /^confidence: found 95, but this must be above 50 %/,
    ],
    [
      "bestOrder(chain, { fix: ['frist'] })",
      /^fix frist: there is no module "frist" in the loop\. Did you mean first\?\n$/,
    ],
    [
      'bestOrder(chain, { budget: 10 })',
      /^budget: found 10, but this must be a whole number from 40 on\.\n$/,
    ],
    ["howMany(threads, 'bals')", /^bals: it is not known what "bals" is\. Did you mean balls\?/],
    ["howMany(threads, 'basket')", /howMany\(loop, 'basket spool'\)/],
    ["howMany(threads, 'balls', { values: [60] })", /^values, from, to, step: there is only one value/],
    ["howMany(threads, 'balls', { limit: 5 })", /^limit: "5" is more than all/],
    ["spares(threads, { on: 'lost_per_our' as 'lost_per_hour' })", /^on: found "lost_per_our"/],
    ["whenItStops(chain, 'secnd')", /^<module>: found "secnd".*Did you mean second\?/],
    [
      "whenItStops(chain, 'second', { for: '5' })",
      /^for: found "5", but this must be a time above 0 with its unit/,
    ],
    [
      "whenItStops(chain, 'second', { at: '10:00', levels: { second: 3 } })",
      /^levels: when it stops is said twice/,
    ],
    [
      "whenItStops(chain, 'second', { at: '10:59' })",
      /^at: a stop of 5 min .*such as at: '10min', or a shorter stop/,
    ],
    ['floodCard(chain, { moments: 0 })', /^moments: found 0, but this must be a whole number from 1 on\.\n$/],
  ])('%s', async (code, message) => {
    const { status, outputs } = await kernel.execute(`await ${code}`);
    expect(status).toBe('error');
    expect(outputs).toEqual([
      { output_type: 'stream', name: 'stderr', text: expect.stringMatching(message) as string },
    ]);
    expect(printed({ status, outputs })).not.toMatch(/\bat .*:\d+:\d+|node_modules|InputError|\[Symbol|--/);
  });
});

it('the verdict of an answer can be shown alone', async () => {
  const done = await kernel.execute(
    "const minders = await howMany(threads, 'minders', { replications: 4 }); await show(minders, 'verdict')",
  );
  expect(done.status).toBe('ok');
  const [, words, ...more] = done.outputs.map((one) => (one.output_type === 'stream' ? {} : one.data));
  expect(more).toEqual([]);
  const said = await kernel.execute(
    'console.log([minders.answer.sentence, ...minders.answer.because].join("\\n\\n"))',
  );
  expect(words?.['text/plain']).toBe(printed(said).trimEnd());
  expect(words?.['text/html']).toMatch(/^(?:<p>[^<]+<\/p>\s*)+$/);
});

it('what can be typed is completed and explained', async () => {
  for (const [code, wanted] of [
    ['await bes', ['bestOf', 'bestOrder']],
    ['await whenI', ['whenItStops']],
    ["await howMany(threads, '", ['balls', 'minders']],
    ['await howMany(threads, "balls", { ', ['values', 'limit', 'on']],
    ["await inline(threads, 'bobbin', { rule: { ", ['spills_per_hour', 'overflow_risk']],
    ["await whenItStops(threads, 'bobbin', { ", ['for', 'clearedIn', 'levels']],
  ] as const)
    expect(await kernel.complete(code), code).toEqual(expect.arrayContaining([...wanted]));
  for (const verb of [
    'bestOf',
    'bestOrder',
    'floodCard',
    'howMany',
    'howRare',
    'inline',
    'spares',
    'whenItStops',
  ]) {
    const help = await kernel.inspect(verb);
    expect(help, verb).toMatch(/Promise<Reply>/);
    expect(help, verb).toMatch(/Write\s+`?await/);
  }
});
