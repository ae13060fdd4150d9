import { requireParameter } from '../errors/index.js';
import { isZero } from './equipment.js';
import type { LoopSpec, ModuleSpec, ShowSpec } from './spec/index.js';
import { checkIndex, checkTime, isWhole } from './specChecks.js';

/** Checks what may be done by hand or by chute: full baskets, pulls, levers, topping up; and the sessions. */
export function checkHands(spec: LoopSpec): void {
  const { modules, spares = [], crew, supply } = spec;
  for (const module of modules) checkPull(module, spares.length);
  for (const [m, module] of modules.entries()) {
    checkWhenFull(spec, m);
    if (module.lever) {
      const { watches, takes, time } = module.lever;
      for (const watched of watches) checkIndex(`${module.id}.lever.watches`, watched, modules.length);
      checkTime(`${module.id}.lever.takes`, takes, false);
      checkTime(`${module.id}.lever.time`, time, false);
    }
  }
  for (const { id, stops } of spares) {
    requireParameter(
      !stops.some(({ trigger }) => trigger.kind === 'at'),
      'simulate',
      `${id}.stops`,
      'at',
      'no planned stops for a spare',
    );
  }
  const { topUp } = crew;
  if (topUp) {
    requireParameter(supply.kind === 'charge', 'simulate', 'crew.topUp', supply.kind, 'a loop');
    for (const [name, value] of Object.entries({
      below: topUp.below,
      upTo: topUp.upTo,
      box: topUp.box,
    })) {
      requireParameter(isWhole(value, 0), 'simulate', `crew.topUp.${name}`, value, 'a whole number from 0');
    }
    checkIndex('crew.topUp.into', topUp.into, modules.length);
    checkTime('crew.topUp.takes', topUp.takes, false);
  }
  checkSessions(spec.show);
}

function checkPull({ id, pull }: ModuleSpec, spares: number): void {
  if (pull === undefined) return;
  const name = `${id}.pull`;
  const { stops, outlastsSeconds, chute, swap, mend } = pull;
  requireParameter(
    stops !== undefined || outlastsSeconds !== undefined,
    'simulate',
    name,
    'nothing',
    'a condition: stops or outlastsSeconds',
  );
  requireParameter(
    stops === undefined || (isWhole(stops.moreThan, 0) && stops.withinSeconds > 0),
    'simulate',
    `${name}.stops`,
    stops?.moreThan,
    'a whole number from 0, within a time above 0',
  );
  requireParameter(
    outlastsSeconds === undefined || (outlastsSeconds >= 0 && outlastsSeconds < Infinity),
    'simulate',
    `${name}.outlastsSeconds`,
    outlastsSeconds,
    'finite, from 0',
  );
  for (const spare of pull.spares) checkIndex(`${name}.spares`, spare, spares);
  if (chute) checkTime(`${name}.chute`, chute, true);
  checkTime(`${name}.swap`, swap, false);
  if (mend) checkTime(`${name}.mend`, mend, false);
}

/** Everything that may stand at place m. */
function candidates({ modules, spares = [] }: LoopSpec, m: number): readonly ModuleSpec[] {
  const module = modules[m];
  return [module, ...(module.pull?.spares ?? []).map((k) => spares[k])];
}

/** A batch must fit at least when everything before it has gone on, or it would be held up for ever. */
function checkWhenFull(spec: LoopSpec, m: number): void {
  const { modules, supply } = spec;
  const { id, basket } = modules[m];
  const rule = basket.whenFull;
  if (rule.kind === 'return') {
    checkIndex(`${id}.basket.whenFull.to`, rule.to, modules.length);
    // Time must pass on every way a ball can go round on.
    checkTime(`${id}.basket.whenFull.time`, rule.time, true);
    requireParameter(rule.to !== m, 'simulate', `${id}.basket.whenFull.to`, rule.to, 'another module');
  }
  for (const { basket: own, drive, catch: caught, id: name } of candidates(spec, m)) {
    requireParameter(
      own.capacity > 0 || (drive.kind === 'demand' && drive.startAt === 1 && caught === 1),
      'simulate',
      `${name}.basket.capacity`,
      own.capacity,
      'above 0, unless its drive is on demand from 1 ball on and catches every ball',
    );
  }
  if (rule.kind !== 'back_up') return;
  requireParameter(
    rule.holds === Infinity || isWhole(rule.holds, 0),
    'simulate',
    `${id}.basket.whenFull.holds`,
    rule.holds,
    'a whole number from 0, or Infinity',
  );
  const before = m > 0 ? m - 1 : supply.kind === 'charge' ? modules.length - 1 : -1;
  if (before < 0) return;
  const room = Math.min(...candidates(spec, m).map(roomWhenWaiting));
  const chute = modules[before].pull?.chute;
  const ways = [
    ...candidates(spec, before),
    ...(chute ? [{ id: 'plain chute', batch: 1, travel: chute }] : []),
  ];
  for (const { id: name, batch, travel } of ways) {
    const most = rule.holds + (isZero(travel) ? room : 0);
    requireParameter(
      batch <= most,
      'simulate',
      `${name}.batch`,
      batch,
      `at most ${most}, or it never fits before ${id}`,
    );
  }
}

/** Balls that find room when a module has all the balls it can have and still waits. */
function roomWhenWaiting({ basket, drive, batch }: ModuleSpec): number {
  if (basket.capacity === 0) return batch;
  return basket.capacity - (drive.kind === 'demand' ? drive.startAt - 1 : 0);
}

function checkSessions({ sessions, seconds }: ShowSpec): void {
  for (const [i, { fromSeconds, clockSeconds }] of (sessions ?? []).entries()) {
    const before = sessions?.[i - 1];
    const length = fromSeconds - (before?.fromSeconds ?? 0);
    requireParameter(
      before === undefined ? fromSeconds === 0 && clockSeconds === 0 : length > 0 && fromSeconds < seconds,
      'simulate',
      `show.sessions[${i}].fromSeconds`,
      fromSeconds,
      'rising from 0, before the end of the show',
    );
    requireParameter(
      before === undefined || clockSeconds >= before.clockSeconds + length,
      'simulate',
      `show.sessions[${i}].clockSeconds`,
      clockSeconds,
      'not before the session before it has ended',
    );
  }
}
