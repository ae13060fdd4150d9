// The built package: worker threads run files of dist.
import { headline, parseScenario, replicate, type RunResult, toRunResult } from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';
import { EVERYTHING, LOCKS } from '../experiments/everything.js';

async function resultOf(text: string, shows: number): Promise<RunResult> {
  const scenario = parseScenario(text);
  const { summary } = await replicate(scenario.spec, { seed: 1, replications: shows, workers: 2 });
  return toRunResult(scenario, summary, { seed: 1, asked: shows });
}

const PLAIN = `name: plain
show: { lasts: 1 h }
charge: 20
modules:
  first: { basket: 60, cycle: 1 s, travel: 5 s }
  second: { basket: 60, cycle: 1.1 s, travel: 5 s }
`;

const INTERVAL = String.raw`\(95 % interval: [^)]*\)`;

describe('the headline', () => {
  it('tells of everything that happens, each with its interval, in four paragraphs', async () => {
    const [flow = '', lap = '', spills = '', crew = '', ...more] = headline(await resultOf(EVERYTHING, 6));
    expect(more).toEqual([]);
    expect(lap).toMatch(/^A lap takes/);
    for (const [text, pattern] of [
      [
        flow,
        String.raw`In \d[\d.]* % ${INTERVAL} of the minutes a ball passes the counter; in the others none`,
      ],
      [flow, String.raw`stairs is held up most, \S+ % ${INTERVAL} of the time, by mill\.`],
      [spills, String.raw`Overflow chutes take \S+ balls per hour ${INTERVAL} back\.`],
      [spills, String.raw`Levers send \S+ balls per hour ${INTERVAL} round their own module again\.`],
      [
        spills,
        String.raw`\S+ balls (?:${INTERVAL}|\(no interval\)) come from the box in a show; \d\S* (?:balls? \(no interval\)|\([^)]*\) balls) are left in it`,
      ],
      [
        crew,
        String.raw`Modules are taken out of the loop \S+ times a show ${INTERVAL}; stairs is out most, \S+ %`,
      ],
    ] as const)
      expect(text).toMatch(new RegExp(pattern));
  });

  it('begins with a lock', async () => {
    const [flow = '', , spills = ''] = headline(await resultOf(LOCKS, 8));
    expect(flow).toMatch(
      /^The loop locks in \d+ % .* first at \d\d:\d\d on average: first, second and third wait for each other\. The loop passes/,
    );
    expect(spills).toMatch(/^No basket ran over in 8 simulated shows, and none can\./);
  });

  it('says nothing of what the scenario rules out', async () => {
    expect(headline(await resultOf(PLAIN, 3)).join(' ')).not.toMatch(
      /lock|held up|chutes|Levers|box|taken out|of the minutes/,
    );
  });
});
