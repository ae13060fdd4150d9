import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lapwright } from './runLapwright.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-quiet-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

/** Six balls, and every module waits for ten: nothing ever moves, so that there is no lap. */
const STILL = `name: Standing still
show: { lasts: 1 h }
charge: 6
crew: { minders: 1, notice: 5 s, walk: 5 s }
templates:
  patient: { basket: 20, batch: 10, drive: demand, start_at: 10, cycle: 4 s, travel: 2 s }
modules:
  mouse: { like: patient, stops: { jam: { running: { exponential: { mean: 5 min } }, crew: { clear: 30 s } } } }
  cat: { like: patient }
  dog: { like: patient }
`;
/** Baskets that only a stop of many minutes would fill: in a few shows nothing falls, though it might. */
const QUIET = `name: Quiet
show: { lasts: 30 min }
charge: 60
crew: { minders: 1, notice: 5 s, walk: 5 s }
templates:
  lift: { basket: 59, cycle: { lognormal: { mean: 0.8 s, cv: 0.1 } }, travel: 5 s }
modules:
  mill: { like: lift, stops: { jam: { running: { exponential: { mean: 1 h } }, crew: { clear: 20 s } } } }
  stair: { like: lift }
  wheel: { like: lift }
house_rules: { spills_per_hour: 60 }
`;
writeFileSync(at('still.yaml'), STILL);
writeFileSync(at('quiet.yaml'), QUIET);

/** The words of an answer. */
async function asked(...args: readonly string[]): Promise<string> {
  const { code, stdout, stderr } = await lapwright(...args, '--workers', '1');
  expect([code, stderr.replaceAll(/\s+/g, ' ')]).toEqual([0, expect.not.stringMatching(/problem|Error/)]);
  expect(stdout).not.toMatch(/NaN|null|undefined/);
  return stdout.replaceAll(/\s+/g, ' ');
}

/** The same, with its report written. */
async function reported(...args: readonly string[]): Promise<string> {
  const report = at('report.html');
  rmSync(report, { force: true });
  const said = await asked(...args, '--report', report);
  expect(existsSync(report)).toBe(true);
  return said;
}

describe('a loop in which there is nothing to measure', () => {
  it('is undecided by a rule on laps, and the report is written all the same', async () => {
    const said = await asked(
      'inline',
      at('still.yaml'),
      'mouse',
      '-n',
      '3',
      '--rule',
      'longest_lap=20min',
      '--anywhere',
    );
    expect(said).toMatch(/^Undecided: .* there was nothing to measure of lap, slowest 5 % aside/);
  });

  it('has no module to mend first by its laps', async () => {
    const said = await reported('mend-first', at('still.yaml'), '-n', '3', '--on', 'loop_time_s');
    expect(said).toMatch(/^There was nothing to measure of loop time in any of 3 shows/);
  });

  it('cannot be compared by its laps', async () => {
    const said = await asked(
      'compare',
      at('still.yaml'),
      '--set',
      'crew.minders=2',
      '-n',
      '3',
      '--on',
      'loop_time_s',
    );
    expect(said).toMatch(
      /^Undecided: .* there was no pair of shows in which both had something to measure\./,
    );
  });
});

describe('shows in which nothing fell', () => {
  const change = ['--set', 'modules.stair.basket=70'];

  it('are not called alike, with the share of shows that may have any', async () => {
    // None in 5 leaves 1 - 0.025^(1/5) = 52.2 % open (Clopper and Pearson 1934).
    const said = await asked('compare', at('quiet.yaml'), ...change, '-n', '5');
    expect(said).toMatch(
      /^Undecided: .*Balls spilled: none seen in 5 shows of either.* at most 52\.2 % of the shows/,
    );
    expect(said).toMatch(/To try next: - Compare by what was seen/);
    expect(said).not.toMatch(/no difference that matters/i);
  });

  it('let a module in only when shows with a spill are rare for sure', async () => {
    const enough = await asked('inline', at('quiet.yaml'), 'mill', '--rule', 'spills_per_hour=60');
    expect(enough).toMatch(/^Inline: .* 0 balls per hour fall \(none seen, 40 shows\)/);
    expect(enough).toMatch(/at most 1 show in 10 .* Here it is at most 8\.8 % of shows/);
  });

  it('show no module that is to be mended', async () => {
    const said = await asked('mend-first', at('quiet.yaml'), '-n', '4');
    expect(said).toMatch(/^Of no single module is it sure .* 0 per hour \(none seen\)/);
    expect(said).toMatch(/"No interval" stands where all shows came out alike/);
  });

  it('do not say how many minders are enough', async () => {
    const ask = ['how-many', at('quiet.yaml'), 'minders', '--values', '1,2', '--on', 'spills_per_hour'];
    const few = await asked(...ask, '-n', '20');
    expect(few).toMatch(
      /^Undecided: .* None were seen in 20 shows of each, by which at most 16\.8 % of shows have any/,
    );
  });
});
