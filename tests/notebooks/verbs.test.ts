import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lapwright } from '../sim-core/cli/runLapwright.js';
import { type Executed, Kernel } from './kernel.js';

/*
 * The verbs as a coordinator meets them: typed into a cell of a real kernel.
 */

const FIRST_CELL = `import * as tslab from 'tslab';
import { change, check, compare, connect, enough, explain, load, mendFirst, replay, run, show, sideBySide, table } from '@lapwright/sim-notebooks';
connect(tslab);`;

let kernel: Kernel;
beforeAll(async () => {
  kernel = await Kernel.start();
  expect((await kernel.execute(FIRST_CELL)).status).toBe('ok');
});
afterAll(() => kernel.close());

async function good(code: string): Promise<Executed> {
  const done = await kernel.execute(code);
  expect(done.status, `${code}: ${printed(done)}`).toBe('ok');
  return done;
}

function printed({ outputs }: Executed): string {
  return outputs
    .map((output) => (output.output_type === 'stream' ? output.text : String(output.data['text/plain'])))
    .join('\n');
}

/** What a cell prints of a value. */
async function valueOf(code: string): Promise<string> {
  const { outputs } = await good(`console.log(${code});`);
  const streams = outputs.filter((output) => output.output_type === 'stream');
  return streams.map(({ text }) => text).join('');
}

describe('results in a kernel', () => {
  it('of run are the same bytes as on the command line', async () => {
    await good(
      "const bench = load('scenarios/bench-one.yaml'); const benchRun = await run(bench, { replications: 5, seed: 7 });",
    );
    const { stdout } = await lapwright('run', 'scenarios/bench-one.yaml', '-n', '5', '-s', '7', '--json');
    expect(JSON.parse(stdout)).toMatchObject({ replications: 5, seed: 7 });
    expect(await valueOf('benchRun.json().trimEnd()')).toBe(stdout);
  });

  it('of compare, with a change, are the same bytes as on the command line', async () => {
    const asked = "{ replications: 6, on: 'throughput_bps' }";
    const { stdout } = await lapwright(
      'compare',
      'scenarios/bench-one.yaml',
      '--set',
      'modules.lantern-stairs.cycle=5 s',
      '-n',
      '6',
      '--on',
      'throughput_bps',
      '--json',
    );
    expect(stdout).toContain('lapwright-answer');
    for (const changed of [
      "bench.set('modules.lantern-stairs.cycle', '5 s')",
      "change(bench, '--set modules.lantern-stairs.cycle=5 s')",
    ])
      expect(await valueOf(`(await compare(bench, ${changed}, ${asked})).json().trimEnd()`)).toBe(stdout);
  });

  it('of mend-first and enough are those of the command line', async () => {
    const mend = await lapwright('mend-first', 'scenarios/bench-one.yaml', '-n', '10', '--json');
    expect(await valueOf('(await mendFirst(bench, { replications: 10 })).json().trimEnd()')).toBe(
      mend.stdout,
    );
    const sharp = await lapwright(
      'enough',
      'scenarios/bench-one.yaml',
      '--on',
      'throughput_bps',
      '--within',
      '20%',
      '--json',
    );
    expect(
      await valueOf("(await enough(bench, { on: 'throughput_bps', within: '20%' })).json().trimEnd()"),
    ).toBe(sharp.stdout);
  });

  it('read as text for people when a cell ends with them', async () => {
    const { stdout } = await lapwright('run', 'scenarios/bench-one.yaml', '-n', '5', '-s', '7');
    expect(printed(await good('benchRun'))).toBe(stdout);
    expect(printed(await good('bench'))).toMatch(/^One module on the bench: lantern-stairs\n$/);
    const story = await lapwright('replay', 'scenarios/bench-one.yaml', '--replication', '0');
    expect(printed(await good('await replay(bench, { replication: 0 })'))).toContain(story.stdout.trimEnd());
  });
});

describe('a show', () => {
  it('of a run is words and a picture with the words as its text', async () => {
    const { outputs } = await good('await show(benchRun)');
    expect(outputs).toHaveLength(2);
    const [words, picture] = outputs.map((output) =>
      output.output_type === 'display_data' ? output.data : {},
    );
    expect(Object.keys(words ?? {})).toEqual(['text/html', 'text/plain']);
    const html = String(picture?.['text/html']);
    const [, alt = '', data = ''] =
      /<img alt="([^"]+)".* src="data:image\/svg\+xml;base64,([^"]+)"/.exec(html) ?? [];
    expect(alt).toContain('chance that a basket runs over');
    const svg = Buffer.from(data, 'base64').toString();
    // White paper of its own, over all of the picture: it reads on a dark page too.
    const [, width, height] = /^<svg[^>]*width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
    expect(svg).toContain(`<rect width="${width}" height="${height}" fill="white"/>`);
  });

  it('with live is one output: a specification, an image and words', async () => {
    const { outputs } = await good("await show(benchRun, 'crew', { live: true })");
    expect(outputs).toHaveLength(1);
    const [only] = outputs;
    const data = only?.output_type === 'display_data' ? only.data : {};
    expect(Object.keys(data)).toEqual(['application/vnd.vegalite.v5+json', 'image/png', 'text/plain']);
    expect(data['application/vnd.vegalite.v5+json']).toMatchObject({
      $schema: 'https://vega.github.io/schema/vega-lite/v5.json',
      config: { background: 'white' },
    });
    const png = Buffer.from(String(data['image/png']), 'base64');
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    expect(png.readUInt32BE(16)).toBeGreaterThan(900);
  });

  it('of each kind of thing says something', async () => {
    for (const [code, words] of [
      ["await show(benchRun, 'all')", /How busy the minders are/],
      ["await show(await compare(bench, bench, { replications: 3 }), 'pairs')", /Each dot is one show/],
      ['await show(await compare(bench, bench, { replications: 3 }))', /No difference that matters/],
      ['await show(replay(bench, { replication: 0 }))', /show 0/],
      [
        "await show(sideBySide({ now: bench, less: bench.set('charge', 40) }, { replications: 3 }))",
        /Best: /,
      ],
      ['table(await sideBySide({ now: bench, again: bench }, { replications: 2 }))', /better than "now" by/],
      ['await show(bench)', /How soon a basket floods/],
      ['check(bench)', /The formulas behind these figures: check\(loop, \{ formulas: true \}\)\./],
      ['table(benchRun)', /balls passing the counter/],
      ['table(bench)', /lantern-stairs/],
      ['table([{ charge: 600, spilled: 12 }, { charge: 650 }])', /charge {2}spilled\n600 {10}12\n650/],
      ['explain(benchRun)', /The intervals say how much/],
      ["explain(benchRun, 'levels')", /Each line is a basket/],
      ["explain('interval')", /right 95 times in 100/],
      ["explain('modules.lantern-stairs.batch')", /In a scenario file, modules\.<name>\.batch/],
      [
        "await show({ mark: 'point', data: { values: [{ x: 1 }] }, encoding: { x: { field: 'x', type: 'quantitative' } }, description: 'one dot' })",
        /one dot/,
      ],
    ] as const)
      expect(printed(await good(code)), code).toMatch(words);
  });

  it('of a table with a thousand lines is one output', async () => {
    const { outputs } = await good('table(Array.from({ length: 1000 }, (_, i) => ({ i, square: i * i })))');
    expect(outputs).toHaveLength(1);
  });
});

describe('a mistake in a cell is told as on the command line, without the way through the program', () => {
  it.each<[string, RegExp]>([
    [
      "load('nothing.yaml')",
      /^nothing\.yaml: there is no such file\. Write its path from the folder you are in\.\n$/,
    ],
    [
      'await run(`name: x\ncharge: -3\n`)',
      /^typed here:1:1: the key "show" is missing.*\ntyped here:1:1: .*\ntyped here:2:9: charge: found -3, but this must be a whole number from 0 to 1000000\.\n$/,
    ],
    ["bench.swap('a', 'b')", /^--swap a,b: [^\n]*"a"[^\n]*\n--swap a,b: [^\n]*"b"/],
    [
      "change(bench, '--set modules.lantern-stairs.bascket=5')",
      /^--set modules\.lantern-stairs\.bascket=5: [\s\S]*basket/,
    ],
    ["change(bench, '--sawp a,b')", /^there is no change of this kind: --sawp a,b\. Did you mean swap\?\n$/],
    ["await show(benchRun, 'level')", /^there is no picture "level" here\. Did you mean levels\?\n$/],
    ["explain('bascket')", /^there is no word or key "bascket" here\. Did you mean basket\?\n$/],
    [
      'await run(bench, { replications: 0 })',
      /^replicate: replications is 0 but must be a whole number from 1\n$/,
    ],
    [
      "await compare(bench, bench, { on: 'spills_per_our' as 'spills_per_hour' })",
      /^on: found "spills_per_our", but this must be the name of a measure\. Did you mean/,
    ],
    [
      'await sideBySide({ alone: bench })',
      /^sideBySide: loops is 1 but must be two or more, each under a name\n$/,
    ],
    ["await enough(bench, { within: 'much' })", /^within: found "much", but this must be a share/],
    ["await replay(bench, { replication: 0, from: 'noon' })", /^--from: found "noon"/],
  ])('%s', async (code, message) => {
    const { status, outputs } = await kernel.execute(code);
    expect(status).toBe('error');
    expect(outputs).toEqual([
      { output_type: 'stream', name: 'stderr', text: expect.stringMatching(message) as string },
    ]);
    expect(printed({ status, outputs })).not.toMatch(/\bat .*:\d+:\d+|node_modules|InputError|\[Symbol/);
  });

  it('and the next cell runs', async () => {
    await good('bench.modules');
  });
});

describe('help while typing', () => {
  it('completes the verbs, the changes of a loop, and the words that options take', async () => {
    expect(await kernel.complete('import { lo')).toBeDefined();
    for (const [code, wanted] of [
      ['loa', ['load']],
      ['await ru', ['run']],
      ['await men', ['mendFirst']],
      ['bench.', ['set', 'swap', 'move', 'without', 'putIn', 'stopsOff', 'modules']],
      ["await show(benchRun, '", ['risk', 'levels', 'loop-time', 'all']],
      ["await compare(bench, bench, { on: '", ['spills_per_hour', 'throughput_bps']],
      ['await compare(bench, bench, { ', ['replications', 'margin', 'untilClear', 'seed']],
      ['benchRun.result.', ['throughput_bps', 'overflow_risk']],
    ] as const)
      expect(await kernel.complete(code), code).toEqual(expect.arrayContaining([...wanted]));
  });

  it('shows what a verb does, and the types of what it gives', async () => {
    expect(await kernel.inspect('load')).toMatch(
      /load\(source: string\): Loop[\s\S]*Reads a scenario: a file/,
    );
    for (const verb of [
      'change',
      'check',
      'compare',
      'enough',
      'explain',
      'mendFirst',
      'replay',
      'run',
      'show',
      'sideBySide',
      'table',
      'connect',
    ])
      expect((await kernel.inspect(verb)).length, verb).toBeGreaterThan(150);
    expect(await kernel.inspect('bench.swap')).toContain('Two modules change places');
    expect(await kernel.inspect('benchRun.result.throughput_bps')).toContain('Estimate');
    // A wrong type is refused before anything runs, so nothing is any.
    const wrong = await kernel.execute('run(bench, { replications: "ten" })');
    expect(printed(wrong)).toMatch(/Type 'string' is not assignable to type 'number'/);
  });
});
