import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { MEASURES, MODEL_REVISION, showsHere } from '../../packages/sim-core/src/experiments/index.js';
import { loadScenarioFile } from '../../packages/sim-core/src/scenario/index.js';

/** Between them they have all that can stand on a table; each show takes some milliseconds. */
const SCENARIOS = [
  'back-up',
  'bench-one',
  'chain-of-five',
  'crowding',
  'lever',
  'locked-loop',
  'overflow-chute',
  'plain-chute',
  'pull-and-spare',
  'shifts',
  'top-up',
  'two-days',
  'village-hall',
];

/** What the shows of each revision of the model came to, as a hash: output of this program, kept so that a change shows. */
const KEPT = JSON.parse(readFileSync('tests/reference/modelRevision.json', 'utf8')) as Record<string, string>;

it('the revision of the model is raised when the same seed gives another show, so that no journal mixes the two', async () => {
  const source = showsHere();
  const shows: string[] = [];
  for (const name of SCENARIOS) {
    const { spec } = loadScenarioFile(`scenarios/${name}.yaml`);
    const values = await source.run({ spec, seed: 1, replication: 0 });
    expect(values).toHaveLength(MEASURES.length);
    shows.push(`${name} ${values.map((value) => value.toPrecision(6)).join(' ')}`);
  }
  const hash = createHash('sha256').update(shows.join('\n')).digest('hex');
  expect(
    KEPT[String(MODEL_REVISION)],
    `Shows have changed. Raise MODEL_REVISION, and write the new number and "${hash}" into modelRevision.json; where only a scenario file or a measure has changed, the hash alone.`,
  ).toBe(hash);
  expect(Math.max(...Object.keys(KEPT).map(Number))).toBe(MODEL_REVISION);
});
