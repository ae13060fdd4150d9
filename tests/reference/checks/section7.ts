import { type CheckGroup, sampled, setAside } from '../check.js';
import { partOf } from '../length.js';
import { at, moduleContent, run, spills, throughput } from '../measure.js';
import { listParam, param } from '../published.js';
import { basketOfModule, chain, exponential, machine, poisson, steady } from '../specs.js';

/* Two machines in a row that both spill. */

function lossTandem(id: string): CheckGroup[] {
  const seconds = partOf(20_000);
  const totals = listParam(id, 'K_total');
  const modules = listParam(id, 'mu').map((rate, m) =>
    machine(exponential(1 / rate), { id: `machine ${m}`, basket: basketOfModule(at(totals, m)) }),
  );
  const spec = chain({ every: poisson(param(id, 'lam')) }, modules, steady(500, seconds));
  return [
    setAside(id, 'formula', 'a limit over an endless run; in any finite time the variance is another', [
      'station 1: asymptotic variance rate of spill count',
      'station 2: asymptotic variance rate of spill count',
    ]),
    sampled(id, {
      replications: 100,
      seconds,
      run: (replication) => run(spec, replication),
      metrics: [
        {
          quantity: 'station 1: spill rate',
          read: (result) => [spills(result, 0), result.measuredSeconds],
        },
        {
          quantity: 'station 1: fraction of arrivals there spilled',
          read: (result) => [spills(result, 0), result.entered],
        },
        { quantity: 'station 1: mean balls', read: (result) => moduleContent(result, 0) },
        {
          quantity: 'station 2: spill rate',
          read: (result) => [spills(result, 1), result.measuredSeconds],
        },
        {
          quantity: 'station 2: fraction of arrivals there spilled',
          read: (result) => [spills(result, 1), at(result.modules.handedOn, 0)],
        },
        { quantity: 'station 2: mean balls', read: (result) => moduleContent(result, 1) },
        { quantity: 'throughput out', read: throughput },
        {
          quantity: 'overall fraction lost',
          read: (result) => [spills(result, 0) + spills(result, 1), result.entered],
        },
      ],
    }),
  ];
}

export const section7: readonly CheckGroup[] = lossTandem('LOSS-TANDEM2');
