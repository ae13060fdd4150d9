import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  loadScenarioFile,
  moduleAvailability,
  roughCut,
  type StopTriggerSpec,
} from '../../../packages/sim-core/src/index.js';
import { module, plannedStop, seconds } from '../../build.js';
import { FEATURES } from '../scenario/brokenFeatures.js';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-check-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** What check prints for a scenario, in one line. */
async function checked(text: string): Promise<string> {
  const path = join(folder, 'scenario.yaml');
  writeFileSync(path, text);
  const { code, stdout, stderr } = await lapwright('check', path);
  expect([code, stderr]).toEqual([0, '']);
  expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
  return stdout.replaceAll(/\s+/g, ' ');
}

describe('a basket that backs up', () => {
  // night-porter: 0.8 balls a second come, 0.4 usually wait for the next pick (half a cycle of 1 s), 4.8 roll on the
  // run-out of 6 s. Basket 40: full after 39.6 / 0.8 = 49.5 s. With the run-out of 15: after 49.8 / 0.8 = 62.25 s.
  it('holds up the module before it when basket and run-out are full', async () => {
    const { spec } = loadScenarioFile('scenarios/back-up.yaml');
    const [first, , third] = roughCut(spec).modules;
    expect(third?.floodsAfterSeconds).toBeCloseTo(49.5, 9);
    expect(third?.holdsUpAfterSeconds).toBeCloseTo(62.25, 9);
    // The feed of a chain cannot be held up.
    expect(first?.holdsUpAfterSeconds).toBe(Infinity);
    const { stdout } = await lapwright('check', 'scenarios/back-up.yaml');
    expect(stdout).toMatch(/^night-porter +1\.00 +100\.0 % +0\.00 +backs up +yes$/m);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(
      'night-porter backs up to brass-ladder: full 49.5 s after it stops, brass-ladder held up after 1 min 2 s',
    );
  });
});

describe('what check says of hands and chutes', () => {
  it('names spares, what they stand in for, levers, and the box', async () => {
    const said = await checked(FEATURES);
    for (const sentence of [
      '12 h 30 min on 2 days.',
      'Spares: plain-lift, old-wheel.',
      'tangler (plain-lift, else old-wheel, else a plain chute), wheel-two (a plain chute).',
      'lift (while wheel-one or tangler is stopped), bare (while wheel-three is stopped).',
      'When fewer than 50 balls are on the path, balls from the box (20) go to lift, up to 60 on the path.',
      'lift returns balls to wheel-one: full ',
      'backing up and returning, pulling, levers, topping up',
    ])
      expect(said).toContain(sentence);
    expect(said).not.toMatch(/No module has a pull rule/);
  });

  it('says which spare nobody would take', async () => {
    expect(await checked(FEATURES.replace('[plain-lift, old-wheel]', '[plain-lift]'))).toContain(
      'No module has a pull rule that names old-wheel.',
    );
  });

  it('says when nobody is there, by the day and the clock', async () => {
    const shifts = FEATURES.replace(
      '{ from: 13:00, to: 17:00, minders: 3 }',
      '{ from: 14:00, to: 17:00, minders: 3 }',
    ).replace(
      '{ from: day 2 12:00, to: day 2 14:00, minders: 1 }',
      '{ from: day 2 13:00, to: day 2 13:30, minders: 1 }',
    );
    // 13:00 to 13:30 is the break of day 1; on day 2 somebody is there until 13:30.
    expect(await checked(shifts)).toContain(
      'Nobody is on duty from day 1 13:30 to day 1 14:00, from day 2 13:30 to day 2 14:00:',
    );
  });

  it('warns of a loop that can lock, and only of such a one', async () => {
    const { stdout } = await lapwright('check', 'scenarios/locked-loop.yaml');
    expect(stdout).toMatch(/The loop can lock: .* 45 balls/s);
    expect((await lapwright('check', 'scenarios/demo.yaml')).stdout).not.toMatch(/lock:/);
  });
});

describe('a stop by the clock', () => {
  const stopping = (trigger: StopTriggerSpec): ReturnType<typeof moduleAvailability> =>
    moduleAvailability(module('m', { stops: [plannedStop([], 60, { trigger })] }));

  // One stop of 60 s in 600 s of time not stopped: 600 of 660 s running, 3600 / 660 stops an hour.
  it('is as frequent as one by running time where balls never lack', () => {
    const time = seconds(600);
    const clock = stopping({ kind: 'clock', time });
    expect(clock.availability).toBeCloseTo(600 / 660, 12);
    expect(clock.stopsPerHour).toBeCloseTo(3600 / 660, 12);
    expect(stopping({ kind: 'running', time })).toEqual(clock);
  });
});
