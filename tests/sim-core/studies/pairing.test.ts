import {
  loadScenarioFile,
  type LoopSpec,
  MEASURES,
  momentsOf,
  pairedDifference,
  Study,
  system,
  welchDifference,
} from '@lapwright/sim-core';
import { describe, expect, it } from 'vitest';

const SHOWS = 12;
const DEMO = loadScenarioFile('scenarios/demo.yaml').spec;

/** The demo with two neighbours, or two far apart, exchanged: orders that a coordinator would try. */
function exchanged(a: string, b: string): LoopSpec {
  const at = (id: string): number => DEMO.modules.findIndex((module) => module.id === id);
  const modules = [...DEMO.modules];
  [modules[at(a)], modules[at(b)]] = [DEMO.modules[at(b)]!, DEMO.modules[at(a)]!];
  return { ...DEMO, modules };
}

const ORDERS = [
  exchanged('old-well', 'tin-orchard'),
  exchanged('glass-heron', 'lamp-lighter'),
  exchanged('harvest-cart', 'biscuit-tin'),
  exchanged('brass-band', 'milk-round'),
];

describe('pairing on orders of the demo', () => {
  it('never gives a wider interval than independent shows by more than noise', async () => {
    const study = new Study({ seed: 1, workers: 2 });
    const systems = [DEMO, ...ORDERS].map((spec, i) => system(String(i), spec));
    await study.simulate(systems, SHOWS);
    await study.close();
    const [today, ...others] = systems;
    const ratios = others.flatMap((other) =>
      MEASURES.flatMap(({ id }) => {
        const before = study.column(today!, id, SHOWS);
        const after = study.column(other, id, SHOWS);
        const paired = pairedDifference(before, after, 0.95).standardError ?? NaN;
        const independent = welchDifference(momentsOf(before), momentsOf(after), 0.95).standardError ?? NaN;
        // Without spread there is nothing to compare.
        return independent > 0 ? [(paired / independent) ** 2] : [];
      }),
    );
    expect(ratios.length).toBeGreaterThan(25);
    // The ratio of the variances is 1 - r for like spreads; r of independent columns has a standard error of
    // 1 / sqrt(n - 1) (Fisher 1915, Biometrika 10, 507-521).
    expect(Math.max(...ratios)).toBeLessThan(1 + 3 / Math.sqrt(SHOWS - 1));
    expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeLessThan(1);
  }, 180_000);
});
