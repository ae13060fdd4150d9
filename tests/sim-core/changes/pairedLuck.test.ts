import { describe, expect, it } from 'vitest';
import { applyChanges, type LoopSpec, replay } from '../../../packages/sim-core/src/index.js';
import { typed } from './smallLoop.js';

const NAMES = ['ash', 'beech', 'cedar', 'elm', 'fir', 'oak'];

/**
 * Modules that stop by the clock and free themselves: when they do, and for how long, is all luck of their own, whatever
 * the balls do.
 */
const TEXT = `name: By the clock
show: { lasts: 4 h }
charge: 60
templates:
  one:
    basket: 40
    cycle: { lognormal: { mean: 0.9 s, cv: 0.2 } }
    travel: 4 s
    stops:
      nap: { clock: { exponential: { mean: 6 min } }, itself: { lognormal: { mean: 20 s, cv: 0.8 } } }
modules:
${NAMES.map((name) => `  ${name}: { like: one }`).join('\n')}
  yew: { like: one }
order: [${NAMES.join(', ')}]
`;

/** When each module stopped and for how long, by its id. */
function naps(spec: LoopSpec): Map<string, string[]> {
  const { log } = replay(spec, { seed: 5, replication: 3 });
  const found = new Map(spec.modules.map(({ id }): [string, string[]] => [id, []]));
  for (const { kind, module, time, seconds } of log) {
    if (kind === 'stops' || kind === 'freed_itself')
      found.get(spec.modules[module]?.id ?? '')?.push(`${kind} ${time} ${seconds ?? ''}`);
  }
  return found;
}

const before = naps(applyChanges({ text: TEXT }, []).spec);

describe('the luck of modules that a change does not touch', () => {
  it.each<[words: string[], touched: string[]]>([
    [['--set', 'modules.cedar.basket=12'], ['cedar']],
    [['--set', 'modules.cedar.stops.nap.clock.exponential.mean=1 min'], ['cedar']],
    [['--set', 'charge=110'], []],
    [['--swap', 'ash,elm'], []],
    [['--move', 'fir', '--before', 'ash'], []],
    [['--without', 'beech'], ['beech']],
    [['--with', 'yew', '--after', 'beech'], ['yew']],
    [['--stops-off', 'oak'], ['oak']],
  ])('stays the same after %s', (words, touched) => {
    const { spec } = applyChanges({ text: TEXT }, typed(...words));
    const after = naps(spec);
    const same = NAMES.filter((name) => !touched.includes(name));
    for (const name of same) {
      expect(before.get(name)?.length, name).toBeGreaterThan(20);
      expect(after.get(name), name).toEqual(before.get(name));
    }
    if (words.includes('modules.cedar.stops.nap.clock.exponential.mean=1 min'))
      expect(after.get('cedar')).not.toEqual(before.get('cedar'));
    if (words.includes('--stops-off')) expect(after.get('oak')).toEqual([]);
  });

  it('is luck: another show has another', () => {
    const { spec } = applyChanges({ text: TEXT }, []);
    const { log } = replay(spec, { seed: 5, replication: 4 });
    const first = log.find(({ kind, module }) => kind === 'stops' && module === 0);
    expect(before.get('ash')?.[0]).not.toBe(`stops ${first?.time} `);
  });
});
