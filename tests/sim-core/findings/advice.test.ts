import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
// The built package: worker threads run files of dist.
import {
  advice,
  floodCard,
  loadScenarioFile,
  lock,
  parseScenario,
  replicate,
  roughCut,
  type RunResult,
  showsHere,
  Study,
  toRunResult,
} from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';
import { verdict } from '../../../packages/sim-core/src/findings/index.js';
import { lapwright } from '../cli/runLapwright.js';
import { EVERYTHING, LOCKS } from '../experiments/everything.js';

/** A few shows of a scenario. */
async function resultOf(text: string, shows: number): Promise<RunResult> {
  const scenario = parseScenario(text);
  const { summary, stopped } = await replicate(scenario.spec, { seed: 1, replications: shows, workers: 2 });
  expect(stopped).toBeUndefined();
  return toRunResult(scenario, summary, { seed: 1, asked: shows });
}

/** What is advised after a few shows of a scenario. */
async function advised(text: string, shows = 3): Promise<string> {
  const { spec } = parseScenario(text);
  return advice(await resultOf(text, shows), spec, roughCut(spec)).join('\n');
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

  it('says how soon baskets are full as shows in which their modules stop do, to a fifth', async () => {
    const scenario = loadScenarioFile('scenarios/village-hall.yaml');
    const { spec } = scenario;
    const { summary } = await replicate(spec, { seed: 1, replications: 20, workers: 2 });
    const result = toRunResult(scenario, summary, { seed: 1, asked: 20 });
    const said = advice(result, spec, roughCut(spec)).join('\n');
    const [, modules = '', from = '', to = ''] =
      /^(.*) spill about .* their baskets are full about (.*?) to (.*?) after a stop begins/m.exec(said) ??
      [];
    const card = await floodCard(new Study({ seed: 2, source: showsHere() }), spec, { replications: 20 });
    const seen = modules
      .split(' and ')
      .map((id) => card.modules.find((module) => module.id === id)?.p50.mean ?? NaN)
      .toSorted((a, b) => a - b);
    expect(seen).toHaveLength(2);
    for (const [i, text] of [from, to].entries()) {
      const [, minutes = NaN, seconds = NaN] = /^(\d+) min (\d+) s$/.exec(text)?.map(Number) ?? [];
      expect((60 * minutes + seconds) / (seen[i] ?? NaN)).toBeGreaterThan(0.8);
      expect((60 * minutes + seconds) / (seen[i] ?? NaN)).toBeLessThan(1.2);
    }
  });

  it('asks for more shows when nothing stands out in a few', async () => {
    expect(await advised(LOOP.replace('charge: 40', 'charge: 11'))).toMatch(
      /too few to say so|room for more/,
    );
  });
});

/** A loop of three in which the second holds up the first when it can. */
const HELD = `name: held
show: { lasts: 2 h }
charge: 40
modules:
  first: { basket: 60, cycle: 0.8 s, travel: 3 s }
  second: { basket: { balls: 20, when_full: { back_up: { holds: 6 } } }, cycle: 1.5 s, travel: 3 s }
  third: { basket: 60, cycle: 0.8 s, travel: 3 s }
`;

/** Four minutes of stop in every ten or so, and a twin on the side table. */
const PULLED = `name: pulled
show: { lasts: 4 h }
charge: 30
crew: { minders: 1, notice: 5 s, walk: 5 s }
modules:
  first: { basket: 60, cycle: 1 s, travel: 5 s }
  tangle:
    basket: 60
    cycle: 1 s
    travel: 5 s
    stops: { jam: { running: { exponential: { mean: 6 min } }, crew: { clear: 2 min } } }
    pull: { stops: { more_than: 2, within: 1 h }, spares: [twin], swap: 1 min, mend: 1 h }
spares:
  twin: { basket: 60, cycle: 1 s, travel: 5 s, stops: { jam: { running: { exponential: { mean: 3 h } }, crew: { clear: 1 min } } } }
`;

const LEVER = `name: lever
show: { lasts: 3 h }
charge: 60
crew: { minders: 2, notice: 5 s, walk: 5 s }
modules:
  first: { basket: 25, cycle: 1 s, travel: 5 s, lever: { watches: [second], takes: 5 s } }
  second:
    basket: unlimited
    cycle: 1 s
    travel: 5 s
    stops: { jam: { running: { exponential: { mean: 20 min } }, crew: { clear: 4 min } } }
  third: { basket: unlimited, cycle: 1 s, travel: 5 s }
`;

const CHUTE = `name: chute
show: { lasts: 3 h }
charge: 60
crew: { minders: 2, notice: 5 s, walk: 5 s }
modules:
  first: { basket: 20, cycle: 1 s, travel: 5 s }
  second:
    basket: { balls: 15, when_full: { return: { to: first, time: 3 s } } }
    cycle: 1 s
    travel: 5 s
    stops: { jam: { running: { exponential: { mean: 20 min } }, crew: { clear: 4 min } } }
  third: { basket: unlimited, cycle: 1 s, travel: 5 s }
`;

describe('advice on what hands and chutes do', () => {
  it('puts a lock first: how often, when, who waits for whom, what to do', async () => {
    expect(await advised(LOCKS, 12)).toMatch(
      /^The loop locks in \d+ % \(95 % interval: .*?\) of the shows, first at 1[0-3]:\d\d on average: first, second and third wait for each other\. Take balls out, or give one of them a basket that spills or an overflow chute\./,
    );
  });

  it('tells a circle that is locked from modules that wait for one which waits for balls', async () => {
    const result = await resultOf(LOCKS, 2);
    const found = lock({
      ...result,
      locked: { ...result.locked, show: { ...result.locked.show, mean: 1 }, modules: ['first', 'second'] },
    });
    expect(found?.statement).toMatch(/: first and second are held up by third, which waits for more balls$/);
    expect(found?.remedy).toBe('Take balls out, or let third start at fewer.');
  });

  it('does not ask for a fuller box where the loop locks', async () => {
    expect(await advised(LOCKS, 12)).not.toMatch(/fuller box/);
  });

  it('names the module that holds others up', async () => {
    expect(await advised(HELD)).toMatch(
      /^first is held up [\d.]+ % .* of the time: second takes balls more slowly than they come\. Look there first/m,
    );
  });

  it('goes on along the loop to the one that the others wait for', async () => {
    const chain = HELD.replace(
      'first: { basket: 60',
      'first: { basket: { balls: 10, when_full: { back_up: { holds: 6 } } }',
    ).replace('charge: 40', 'charge: { baskets: { first: 10, second: 20, third: 40 } }');
    // Third hands on to first, first to second: both are held up, and second is the slow one.
    expect(await advised(chain)).toMatch(/and 1 more is for more than 5 %: second takes balls more slowly/);
  });

  it('blames a run-out that is too short, not the module behind it', async () => {
    // Three balls in three seconds: the run-out to second passes one ball a second at most, and second takes two.
    const short = HELD.replace('holds: 6', 'holds: 3').replace('1.5 s', '0.5 s');
    expect(await advised(short)).toMatch(
      /the basket of second, for which they wait, is seldom full: the run-out that leads there holds too few balls/,
    );
  });

  it('looks downstream when a basket runs over because its module is held up', async () => {
    // Nothing stops; second takes fewer than first would pass on, and the small basket of first spills.
    expect(
      await advised(
        HELD.replace('first: { basket: 60', 'first: { basket: 8').replace(
          'charge: 40',
          'charge: { baskets: { first: 8, second: 20, third: 20 } }',
        ),
      ),
    ).toMatch(
      /^first spills about 100 % of the balls that fall, mostly because more balls come than it lets go: it is held up from downstream\. Look there first, take balls out/m,
    );
  });

  it('compares a pulled module with its spare, each while in the loop', async () => {
    expect(await advised(PULLED, 6)).toMatch(
      /tangle is out of the loop \d+ % .* of the time, pulled [\d.]+ \([\d.]+ to [\d.]+\) times a show\. While in the loop it makes .* stops per hour, its spare twin .* stops per hour: the spare does better; a run with twin in its place from the start is worth it\./,
    );
  });

  it('says so when only a plain chute can stand in', async () => {
    const chute = PULLED.replace('spares: [twin], ', 'chute: 4 s, ').replace(/spares:\n.*\n/, '');
    expect(await advised(chute, 3)).toMatch(/tangle is out .* and a plain chute stands in for it/);
  });

  it('calls a spare better or worse only when the intervals lie apart', () => {
    const rate = (low: number, high: number): Parameters<typeof verdict>[0] => ({
      stops_per_hour_in_loop: { mean: (low + high) / 2, low, high, confidence: 0.95, replications: 9 },
    });
    expect(verdict(rate(1, 2), rate(3, 4))).toBe('better');
    expect(verdict(rate(3, 4), rate(1, 2))).toBe('worse');
    expect(verdict(rate(1, 3), rate(2, 4))).toBe('open');
    const one = { stops_per_hour_in_loop: { ...rate(1, 2).stops_per_hour_in_loop, low: null, high: null } };
    expect(verdict(one, rate(3, 4))).toBe('open');
  });

  it('says that the box runs empty, and why', async () => {
    const text = changed('second: {', 'second: { leak: 1 %,').replace(
      'minders: 0',
      'minders: 1, top_up: { below: 38, up_to: 40, box: 5, into: first, takes: 30 s }',
    );
    expect(await advised(text)).toMatch(
      /The box of 5 balls is empty at closing time in 100 % .* of the shows; by then \S+ (?:\([\d.]+ to [\d.]+\) )?balls(?: \(no interval\))? lie on the floor.*Let somebody sweep before balls are topped up, mend what loses them \(second leaks most/,
    );
  });

  it('says that a lever only moves the flood when its own basket runs over, and does not say it twice', async () => {
    const text = await advised(LEVER);
    expect(text).toMatch(
      /The lever of first sends \d+ \(\d+ to \d+\) balls per hour back into its own basket, and that basket runs over too/,
    );
    expect(text).not.toMatch(/first spills/);
  });

  it('says that a chute only moves the flood when the basket at its end runs over', async () => {
    expect(await advised(CHUTE)).toMatch(
      /The overflow chute of second brings \d+ \(\d+ to \d+\) balls per hour to first, and the basket there runs over/,
    );
  });

  it('has at most four sentences to offer, whatever happens', async () => {
    const { spec } = parseScenario(EVERYTHING);
    expect(advice(await resultOf(EVERYTHING, 4), spec, roughCut(spec))).toHaveLength(4);
  });

  it('says nothing of all this where it does not apply', async () => {
    expect(await advised(changed('second: {', 'second: { leak: 1 %,'))).not.toMatch(
      /locks|held up|out of the loop|box|lever|chute/,
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
