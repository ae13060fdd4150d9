import { EventQueue, exponential, runUntil, stream } from '@lapwright/sim-core';

/*
 * An example of what the kernel, the random streams and the distributions are good for besides balls: a post office.
 * One queue, several clerks, customers at random (M/M/c), with or without seats enough for those who wait.
 */

const CUSTOMER = 0;
const SERVED = 1;

export interface PostOffice {
  readonly clerks: number;
  /** Seats for those who wait; who finds none goes away. Infinity when there is always room. */
  readonly seats: number;
  readonly customersPerSecond: number;
  /** What one clerk can do. */
  readonly servedPerSecond: number;
  /** Seconds at the start that are not counted, and seconds that are. */
  readonly warmUpSeconds: number;
  readonly seconds: number;
  readonly seed: number;
  readonly replication: number;
}

/** What was counted: numbers of customers, and seconds summed over customers. */
export interface PostOfficeDay {
  came: number;
  turnedAway: number;
  called: number;
  hadToWait: number;
  waitSeconds: number;
  served: number;
  visitSeconds: number;
  /** Integrals over time of customers waiting, and of customers in the office. */
  waitingArea: number;
  insideArea: number;
}

/** Simulates one day at the post office. */
export function postOffice(office: PostOffice): PostOfficeDay {
  const { seed, replication, warmUpSeconds, clerks, seats } = office;
  const gap = exponential({ mean: 1 / office.customersPerSecond });
  const service = exponential({ mean: 1 / office.servedPerSecond });
  const gaps = stream({ seed, replication, place: 'door', purpose: 'gap' });
  const services = stream({ seed, replication, place: 'counter', purpose: 'service' });

  const queue = new EventQueue();
  const door = queue.addTimer(0);
  const free = Array.from({ length: clerks }, (_, i) => queue.addTimer(i + 1));
  const line: number[] = [];
  const cameAt = new Map<number, number>();
  let day = emptyDay();
  let settled = 0;

  const settle = (): void => {
    day.waitingArea += line.length * (queue.now - settled);
    day.insideArea += (line.length + cameAt.size) * (queue.now - settled);
    settled = queue.now;
  };
  const call = (clerk: number, came: number): void => {
    day.called++;
    if (came < queue.now) day.hadToWait++;
    day.waitSeconds += queue.now - came;
    cameAt.set(clerk, came);
    queue.schedule(clerk, queue.now + service.sample(services), SERVED);
  };
  const enter = (): void => {
    queue.schedule(door, queue.now + gap.sample(gaps), CUSTOMER);
    day.came++;
    const clerk = free.pop();
    if (clerk !== undefined) call(clerk, queue.now);
    else if (line.length < seats) line.push(queue.now);
    else day.turnedAway++;
  };
  const leave = (clerk: number): void => {
    day.served++;
    day.visitSeconds += queue.now - (cameAt.get(clerk) ?? NaN);
    cameAt.delete(clerk);
    const next = line.shift();
    if (next === undefined) free.push(clerk);
    else call(clerk, next);
  };
  const happen = (timer: number): void => {
    settle();
    if (queue.eventClass === CUSTOMER) enter();
    else leave(timer);
  };

  queue.schedule(door, gap.sample(gaps), CUSTOMER);
  runUntil(queue, warmUpSeconds, happen);
  settle();
  day = emptyDay();
  runUntil(queue, warmUpSeconds + office.seconds, happen);
  settle();
  return day;
}

function emptyDay(): PostOfficeDay {
  return {
    came: 0,
    turnedAway: 0,
    called: 0,
    hadToWait: 0,
    waitSeconds: 0,
    served: 0,
    visitSeconds: 0,
    waitingArea: 0,
    insideArea: 0,
  };
}
