import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { lapwright } from './runLapwright.js';

const FILE = 'scenarios/counted-stairs.yaml';
const ASK = ['inline', FILE, 'lantern-stairs', '-n', '10', '--draws', '40', '--workers', '1'];
const validate = new Ajv2020({ allowUnionTypes: true }).compile(
  JSON.parse(readFileSync('packages/sim-core/schema/answer.schema.json', 'utf8')) as object,
);

interface Told {
  readonly verdict: string;
  readonly sentence: string;
  readonly because: readonly string[];
  readonly sure: readonly string[];
  readonly next: readonly string[];
  readonly tables: readonly { readonly title: string; readonly rows: readonly (readonly string[])[] }[];
  readonly pictures: readonly { readonly id: string; readonly rows: readonly unknown[] }[];
  readonly scenarios: readonly { readonly counted?: readonly object[] }[];
  readonly details: {
    readonly with_it: Judged;
    readonly doubt: {
      readonly judgement: Judged;
      readonly draws: number;
      readonly bench: { readonly best: string | null };
    } | null;
  };
}
interface Judged {
  readonly verdict: string;
  readonly rules: readonly { readonly estimate: { readonly low: number; readonly high: number } }[];
}

async function told(...args: readonly string[]): Promise<Told> {
  const { code, stdout, stderr } = await lapwright(...args, '--json');
  expect([code, stderr]).toEqual([0, '']);
  const answer = JSON.parse(stdout) as Told;
  expect(validate(answer), JSON.stringify(validate.errors)).toBe(true);
  return answer;
}

describe('lapwright inline of a module that was counted', () => {
  it('rests on the wider interval, with the other beside it', async () => {
    const answer = await told(...ASK);
    const { with_it: naive, doubt } = answer.details;
    expect(doubt?.draws).toBe(40);
    const [narrow, wide] = [naive.rules[0]?.estimate, doubt?.judgement.rules[0]?.estimate];
    // Three stops: the rate is known to within a factor of 4 or so either way (chi-square with 7 degrees of freedom, half of
    // 1.69 and 16.0: 0.24 to 2.3 times), ten shows to within a tenth or two.
    expect((wide?.high ?? NaN) - (wide?.low ?? NaN)).toBeGreaterThan(
      3 * ((narrow?.high ?? NaN) - (narrow?.low ?? NaN)),
    );
    expect(answer.verdict).toBe(doubt?.judgement.verdict);
    expect(answer.sentence).toContain('80 shows');
    expect(answer.because.join(' ')).toMatch(
      /^Figures of lantern-stairs come from a count of 55 min, and that is kept in mind\. With what was counted, (about \d of 10|more than 19 of 20) such modules would keep the rule of balls spilled\. Taken at their word, the figures would say (inline|side table|undecided); balls spilled: \d+ per hour/,
    );
    expect(answer.because.join(' ')).toMatch(/comes from few data, the rest is luck of the day/);
    expect(answer.tables.map(({ title }) => title)).toContain('What the counts leave open');
    expect(answer.pictures.find(({ id }) => id === 'counted')?.rows).toHaveLength(2);
    // An hour more on top of 55 min takes 60 / 115 off the variance, so the width shrinks to the root of 55 / 115, 69 %.
    expect(answer.next[0]).toMatch(
      /^Count lantern-stairs for another hour: that would make .* 31 % narrower\.$/,
    );
    expect(answer.sure.join(' ')).not.toMatch(/this answer takes them at their word/);
    expect(answer.scenarios[0]?.counted).toEqual([{ module: 'lantern-stairs', counted_s: 3300 }]);
  });

  it('gives the same bytes with two workers', async () => {
    const args = ASK.slice(0, -1);
    const [one, two] = await Promise.all([
      lapwright(...args, '1', '--json'),
      lapwright(...args, '2', '--json'),
    ]);
    expect(two.stdout).toBe(one.stdout);
  });

  it('takes figures at their word when told so, or when they are set', async () => {
    const plain = await told(...ASK, '--as-written');
    expect(plain.details.doubt).toBe(null);
    expect(plain.verdict).toBe(plain.details.with_it.verdict);
    expect(plain.sure.at(-1)).toMatch(
      /^Figures of lantern-stairs come from a count of 55 min; this answer takes them/,
    );
    const changes = ['stops.jam.running.exponential.mean=30 min', 'catch=1', 'cycle=0.85 s'];
    const set = await told(
      ...ASK,
      ...changes.flatMap((change) => ['--set', `modules.lantern-stairs.${change}`]),
    );
    expect(set.details.doubt).toBe(null);
    expect(set.scenarios[0]?.counted).toBe(undefined);
  });
});

describe('answers to other questions', () => {
  it('say that they take counted figures at their word', async () => {
    const questions = [
      ['compare', FILE, '--set', 'charge=120', '-n', '3'],
      ['enough', FILE, '--at-most', '30'],
      ['mend-first', FILE, '-n', '3'],
    ];
    for (const question of questions) {
      const { sure } = await told(...question, '--workers', '1');
      expect(sure.at(-1), question[0]).toMatch(
        /^Figures of lantern-stairs come from a count of 55 min; this answer takes them at their word\. .*inline/,
      );
    }
    const { sure } = await told(
      'compare',
      'scenarios/chain-of-five.yaml',
      '--set',
      'crew.minders=2',
      '-n',
      '3',
    );
    expect(sure.join(' ')).not.toMatch(/at their word/);
  });
});
