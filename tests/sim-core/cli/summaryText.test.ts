// The built package: worker threads run files of dist.
import {
  advice,
  loadScenarioFile,
  parseScenario,
  replicate,
  roughCut,
  type Scenario,
  toRunResult,
} from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';
import { summaryText } from '../../../packages/sim-core/src/cli/summaryText.js';
import { EVERYTHING, LOCKS } from '../experiments/everything.js';

async function summaryOf(scenario: Scenario, shows: number): Promise<string> {
  const { summary } = await replicate(scenario.spec, { seed: 1, replications: shows, workers: 2 });
  const result = toRunResult(scenario, summary, { seed: 1, asked: shows });
  return summaryText(result, advice(result, scenario.spec, roughCut(scenario.spec)));
}

describe('the summary on the terminal', () => {
  it.each<[string, Scenario]>([
    ['everything at once', parseScenario(EVERYTHING)],
    ['a lock', parseScenario(LOCKS)],
    ['the demo', loadScenarioFile('scenarios/demo.yaml')],
  ])('of %s fits one screen of 24 lines of 80 characters', async (_, scenario) => {
    const text = await summaryOf(scenario, 4);
    expect(text.endsWith('\n')).toBe(true);
    expect(text.split('\n').length).toBeLessThanOrEqual(24);
    expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
    expect(text).toMatch(/^> /m);
  });

  it('has a row for what can happen, with its interval', async () => {
    const text = await summaryOf(parseScenario(EVERYTHING), 4);
    expect(text).toMatch(/^Everything at once: 4 simulated shows of 8 h 45 min in 3 sessions/);
    expect(text).toMatch(/^modules pulled +\S+ per show +\S+ to \S+ per show$/m);
    expect(text).toMatch(/^balls from the box +\S+ per show +(\S+ to \S+ per show|no interval)$/m);
    if (text.includes('no interval')) expect(text).toContain('"No interval" stands where all 4 shows');
    expect(text).toMatch(/^public time with the loop moving +\S+ % +\S+ to \S+ %$/m);
  });

  it('begins with a lock, before the figures', async () => {
    const text = await summaryOf(parseScenario(LOCKS), 12);
    expect(text.replaceAll(/\s+/g, ' ')).toMatch(
      /^A loop that locks: .* seed 1 > The loop locks in .* wait for each other\. Take balls out.* mean 95 % interval/,
    );
    expect(text.match(/The loop locks/g)).toHaveLength(1);
  });

  it('has no row for what cannot happen', async () => {
    const plain = parseScenario(`name: plain
show: { lasts: 1 h }
charge: 20
modules:
  first: { basket: 60, cycle: 1 s, travel: 5 s }
  second: { basket: 60, cycle: 1.1 s, travel: 5 s }
`);
    expect(await summaryOf(plain, 4)).not.toMatch(/pulled|box|moving|locks/);
  });
});
