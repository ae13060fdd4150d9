import { type CheckGroup, sampled } from '../check.js';
import { partOf } from '../length.js';
import { SEED } from '../measure.js';
import { postOffice } from '../mmcExample.js';
import { param } from '../published.js';

const KERNEL = 'several machines at one basket are no ball loop: the post office example on the bare kernel';

/** M/M/c: the post office with endless seats, and with none for Erlang's loss formula. */
export function postOffices(id: string): CheckGroup[] {
  const seconds = partOf(15_000);
  const office = {
    clerks: param(id, 'c'),
    customersPerSecond: param(id, 'lam'),
    servedPerSecond: param(id, 'mu'),
    warmUpSeconds: 1000,
    seconds,
    seed: SEED,
  };
  const replications = 100;
  return [
    sampled(id, {
      replications,
      seconds,
      run: (replication) => postOffice({ ...office, seats: 0, replication }),
      metrics: [
        { quantity: 'Erlang B', read: (day) => [day.turnedAway, day.came], remark: `${KERNEL}, no seats` },
      ],
    }),
    sampled(id, {
      replications,
      seconds,
      run: (replication) => postOffice({ ...office, seats: Infinity, replication }),
      metrics: [
        { quantity: 'Erlang C = P(wait>0)', read: (day) => [day.hadToWait, day.called], remark: KERNEL },
        { quantity: 'Lq', read: (day) => [day.waitingArea, seconds], remark: KERNEL },
        { quantity: 'Wq', read: (day) => [day.waitSeconds, day.called], remark: KERNEL },
        { quantity: 'L', read: (day) => [day.insideArea, seconds], remark: KERNEL },
        { quantity: 'W', read: (day) => [day.visitSeconds, day.served], remark: KERNEL },
      ],
    }),
  ];
}
