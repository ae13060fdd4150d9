import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
// The built package: worker threads run files of dist.
import {
  loadScenarioFile,
  parseScenario,
  replicate,
  type RunResult,
  runResultSchema,
  toRunResult,
  VERSION,
} from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';
import { EVERYTHING, LOCKS } from './everything.js';

const scenario = loadScenarioFile('scenarios/demo.yaml');
const brief = {
  ...scenario,
  spec: { ...scenario.spec, show: { seconds: 3600, warmUpSeconds: 300, opensAtSeconds: 36_000 } },
};

async function resultOf(workers: number, replications: number): Promise<RunResult> {
  const { summary } = await replicate(brief.spec, { seed: 3, replications, workers });
  return toRunResult(brief, summary, { seed: 3, asked: replications });
}

describe('replicate', () => {
  it('gives the same bytes with 1, 2 and 8 workers', async () => {
    const [one, two, eight] = await Promise.all(
      [1, 2, 8].map(async (workers) => JSON.stringify(await resultOf(workers, 12))),
    );
    expect(two).toBe(one);
    expect(eight).toBe(one);
  });

  it('refuses options that cannot be used', async () => {
    await expect(replicate(brief.spec, { seed: -1, replications: 1 })).rejects.toThrow(/seed is -1/);
    await expect(replicate(brief.spec, { seed: 1, replications: 0 })).rejects.toThrow(/replications is 0/);
    await expect(replicate(brief.spec, { seed: 1, replications: 1, workers: 1.5 })).rejects.toThrow(
      /workers is 1.5/,
    );
    const bad = { ...brief.spec, counter: 99 };
    await expect(replicate(bad, { seed: 1, replications: 1 })).rejects.toThrow(/counter is 99/);
  });

  it('uses independent luck in each replication: estimates move as the interval says', async () => {
    const { summary } = await replicate(brief.spec, { seed: 3, replications: 12, workers: 2 });
    const { throughput_bps: flow } = toRunResult(brief, summary, { seed: 3, asked: 12 });
    expect(flow.high ?? 0).toBeGreaterThan(flow.low ?? 0);
  });
});

describe('the result', () => {
  const kept = JSON.parse(readFileSync('packages/sim-core/schema/run-result.schema.json', 'utf8')) as object;
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true }).compile(kept);

  it('has a published schema, the one the program prints (lapwright schema result)', () => {
    expect(kept).toEqual(JSON.parse(JSON.stringify(runResultSchema())));
  });

  it('fits the schema, for a loop, a chain, and one replication only', async () => {
    for (const file of ['demo', 'bench-one', 'chain-of-five']) {
      const one = loadScenarioFile(`scenarios/${file}.yaml`);
      for (const replications of [1, 3]) {
        const { summary } = await replicate(
          { ...one.spec, show: { seconds: 1800, warmUpSeconds: 0 } },
          { seed: 1, replications },
        );
        const result = JSON.parse(
          JSON.stringify(toRunResult(one, summary, { seed: 1, asked: replications })),
        ) as RunResult;
        expect(validate(result), JSON.stringify(validate.errors)).toBe(true);
        expect(result.overflow_risk.hour).toBeNull();
      }
    }
  });

  it.each([
    ['everything', EVERYTHING],
    ['a lock', LOCKS],
  ])('fits the schema with %s, and says which sessions there are', async (_, text) => {
    const one = parseScenario(text);
    const { summary } = await replicate(one.spec, { seed: 1, replications: 3, workers: 2 });
    const result = JSON.parse(JSON.stringify(toRunResult(one, summary, { seed: 1, asked: 3 }))) as RunResult;
    expect(validate(result), JSON.stringify(validate.errors)).toBe(true);
    // Everything: 10:00 to 12:30 and 13:15 to 16:00, then from 9:30 on the next day.
    expect(result.scenario.sessions).toEqual(
      text === EVERYTHING
        ? [
            { from_s: 0, clock_s: 0 },
            { from_s: 2.5 * 3600, clock_s: 3.25 * 3600 },
            { from_s: 5.25 * 3600, clock_s: 23.5 * 3600 },
          ]
        : [{ from_s: 0, clock_s: 0 }],
    );
  });

  it('has an interval around every mean, inside the range of the quantity', async () => {
    const result = await resultOf(2, 6);
    let seen = 0;
    let alike = 0;
    const visit = (value: unknown, path: string): void => {
      if (typeof value !== 'object' || value === null) return;
      if ('confidence' in value) {
        const { mean, low, high, replications } = value as unknown as {
          mean: number | null;
          low: number | null;
          high: number | null;
          replications: number;
        };
        seen++;
        if (mean === null || replications < 2) return;
        if (low === null) {
          // All six came out alike, and it takes 36 for that to be known: 1 - 0.025^(1 / 36) < 0.1.
          expect(high, path).toBeNull();
          alike++;
          return;
        }
        expect(low, path).toBeLessThanOrEqual(mean);
        // Balls that fall many at a time and were never seen have no upper limit; everything else has one.
        if (high === null)
          expect([mean, /spills|drops|lost_|returned|recirculated/.test(path)], path).toEqual([0, true]);
        else expect(high, path).toBeGreaterThanOrEqual(mean);
        if (/share|risk/.test(path))
          expect(
            [low, high ?? 2].every((x) => x >= 0 && x <= 1),
            path,
          ).toBe(true);
        return;
      }
      for (const [key, inner] of Object.entries(value)) visit(inner, `${path}.${key}`);
    };
    visit(result, '');
    expect(seen).toBeGreaterThan(500);
    expect(alike).toBeLessThan(seen / 2);
  });

  it('says where it comes from', async () => {
    const result = await resultOf(1, 1);
    const { version } = JSON.parse(readFileSync('packages/sim-core/package.json', 'utf8')) as {
      version: string;
    };
    expect([result.version, VERSION]).toEqual([version, version]);
    expect(result).toMatchObject({
      seed: 3,
      replications: 1,
      partial: false,
      horizon_s: 3600,
      warm_up_s: 300,
    });
    expect(result.scenario.sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(result.throughput_bps).toMatchObject({ low: null, high: null, replications: 1 });
  });
});
