import { requireParameter } from '../errors/index.js';
import { checkHands } from './checkHands.js';
import type { CrewSpec, LoopSpec, ModuleSpec, StopCauseSpec } from './spec/index.js';
import { checkIndex, checkShare, checkTime, isWhole } from './specChecks.js';

/**
 * Checks a spec that a program wrote, so that the simulator itself can trust it. Scenario files are checked with better
 * messages long before.
 *
 * @throws ParameterError for the first thing that cannot be used
 */
export function checkSpec(spec: LoopSpec): void {
  const check: typeof requireParameter = requireParameter;
  check(isSpec(spec), 'simulate', 'spec', spec, 'a LoopSpec: of a scenario that was loaded, its .spec');
  const { modules, spares = [], supply, show, counter } = spec;
  check(modules.length > 0, 'simulate', 'modules', modules, 'at least one module');
  check(
    new Set([...modules, ...spares].map(({ id }) => id)).size === modules.length + spares.length,
    'simulate',
    'modules',
    'ids',
    'unique ids',
  );
  check(
    show.seconds > 0 && show.seconds < Infinity,
    'simulate',
    'show.seconds',
    show.seconds,
    'finite and above 0',
  );
  check(
    show.warmUpSeconds >= 0 && show.warmUpSeconds < show.seconds,
    'simulate',
    'show.warmUpSeconds',
    show.warmUpSeconds,
    'from 0 to less than show.seconds',
  );
  checkIndex('counter', counter, modules.length);
  for (const module of [...modules, ...spares]) checkModule(module);
  if (supply.kind === 'charge') {
    const { placed } = supply;
    check(
      placed.length === modules.length,
      'simulate',
      'supply.placed',
      placed.length,
      `${modules.length} numbers`,
    );
    for (const [m, balls] of placed.entries()) {
      const capacity = modules[m]?.basket.capacity ?? 0;
      check(
        isWhole(balls, 0) && balls <= capacity,
        'simulate',
        `supply.placed[${m}]`,
        balls,
        `whole, 0 to ${capacity}`,
      );
    }
  } else {
    check(isWhole(supply.balls, 1), 'simulate', 'supply.balls', supply.balls, 'a whole number from 1');
    checkTime('supply.every', supply.every, true);
    check(
      supply.first === undefined || (supply.first >= 0 && supply.first < Infinity),
      'simulate',
      'supply.first',
      supply.first,
      'a finite number from 0',
    );
  }
  checkCrew(spec.crew, modules.length);
  checkHands(spec);
}

/** Whether it is the kind of thing at all whose parts can be checked: programs without types give anything. */
function isSpec(spec: unknown): boolean {
  if (typeof spec !== 'object' || spec === null) return false;
  const parts = spec as Readonly<Record<string, unknown>>;
  const isThing = (part: unknown): boolean => typeof part === 'object' && part !== null;
  return Array.isArray(parts['modules']) && [parts['show'], parts['supply'], parts['crew']].every(isThing);
}

function checkModule(module: ModuleSpec): void {
  const name = (part: string): string => `${module.id}.${part}`;
  const { basket, drive, batch } = module;
  requireParameter(
    basket.capacity === Infinity || isWhole(basket.capacity, 0),
    'simulate',
    name('basket.capacity'),
    basket.capacity,
    'a whole number from 0, or Infinity',
  );
  requireParameter(isWhole(batch, 1), 'simulate', name('batch'), batch, 'a whole number from 1');
  if (drive.kind === 'demand') {
    requireParameter(
      isWhole(drive.startAt, 1),
      'simulate',
      name('drive.startAt'),
      drive.startAt,
      'whole, from 1',
    );
  }
  checkShare(name('catch'), module.catch, true);
  checkShare(name('leak'), module.leak, false);
  checkTime(name('cycle'), module.cycle, true);
  checkTime(name('travel'), module.travel, false);
  for (const cause of module.stops) checkCause(name(`stops.${cause.id}`), cause);
}

function checkCause(name: string, cause: StopCauseSpec): void {
  const { trigger, remedy, crowded } = cause;
  if (trigger.kind === 'per_cycle' || trigger.kind === 'per_ball')
    checkShare(`${name}.probability`, trigger.probability, false);
  else if (trigger.kind === 'running' || trigger.kind === 'clock')
    checkTime(`${name}.${trigger.kind}`, trigger.time, true);
  else {
    for (const time of trigger.times) {
      requireParameter(time >= 0 && time < Infinity, 'simulate', `${name}.at`, time, 'finite numbers from 0');
    }
  }
  if (crowded) {
    checkShare(`${name}.crowded.above`, crowded.above, false);
    requireParameter(
      crowded.times >= 0 && crowded.times < Infinity,
      'simulate',
      `${name}.crowded.times`,
      crowded.times,
      'finite, from 0',
    );
  }
  checkShare(`${name}.drops`, cause.drops, false);
  if (remedy.kind === 'itself') {
    checkTime(`${name}.itself`, remedy.time, false);
  } else {
    checkTime(`${name}.notice`, remedy.notice, false);
    checkTime(`${name}.walk`, remedy.walk, false);
    checkTime(`${name}.clear`, remedy.clear, false);
  }
}

function checkCrew(crew: CrewSpec, modules: number): void {
  const { duty, sweep } = crew;
  requireParameter(
    duty[0]?.fromSeconds === 0,
    'simulate',
    'crew.duty',
    duty[0]?.fromSeconds,
    'a list that begins at 0',
  );
  for (const [i, { fromSeconds, minders }] of duty.entries()) {
    requireParameter(
      isWhole(minders, 0),
      'simulate',
      `crew.duty[${i}].minders`,
      minders,
      'a whole number from 0',
    );
    requireParameter(
      i === 0 || (fromSeconds > (duty[i - 1]?.fromSeconds ?? 0) && fromSeconds < Infinity),
      'simulate',
      `crew.duty[${i}].fromSeconds`,
      fromSeconds,
      'later than the step before',
    );
  }
  if (!sweep) return;
  requireParameter(
    sweep.everySeconds > 0 && sweep.everySeconds < Infinity,
    'simulate',
    'crew.sweep.everySeconds',
    sweep.everySeconds,
    'finite and above 0',
  );
  checkIndex('crew.sweep.into', sweep.into, modules);
  checkTime('crew.sweep.takes', sweep.takes, false);
  checkShare('crew.sweep.lost', sweep.lost, false);
}
