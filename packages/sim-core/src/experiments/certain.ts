import type { LoopSpec, ModuleSpec, RemedySpec, StopCauseSpec } from '../model/spec/index.js';
import { type Possibilities, possibilities } from './possibilities.js';

/** A time as a scenario gives it. */
type Time = ModuleSpec['cycle'];

/** What the scenario alone says of a loop. */
interface Known {
  readonly chance: boolean;
  readonly possible: Possibilities;
}

const KNOWN = new WeakMap<LoopSpec, Known>();

/**
 * Whether a measure is the same in every show for certain, by the scenario alone: because the loop has no chance in it, or
 * because it counts what cannot happen there. In doubt it says no.
 *
 * @param measure as in MEASURES
 * @example
 * ['stops_per_hour', 'pulls_per_show'].map((measure) => isCertain(measure, exampleLoop)) // => [false, true]
 */
export function isCertain(measure: string, spec: LoopSpec): boolean {
  const { chance, possible } = knownOf(spec);
  if (!chance) return true;
  switch (measure) {
    case 'spills_per_hour':
    case 'spill_hour_share':
    case 'spill_show_share':
      return !possible.places.some(({ spill }) => spill);
    case 'lost_per_hour':
      return (spec.crew.sweep?.lost ?? 0) === 0;
    case 'stops_per_hour':
      return !possible.places.some(({ stopped }) => stopped);
    case 'pulls_per_show':
      return !possible.pulled;
    default:
      return false;
  }
}

/** Whether every show of a loop is the same, because nothing in it is drawn. */
export function withoutChance(spec: LoopSpec): boolean {
  return !knownOf(spec).chance;
}

function knownOf(spec: LoopSpec): Known {
  const known = KNOWN.get(spec) ?? { chance: hasChance(spec), possible: possibilities(spec) };
  KNOWN.set(spec, known);
  return known;
}

/** Whether anything in a show is drawn. */
function hasChance({ modules, spares = [], supply, crew: { sweep, topUp } }: LoopSpec): boolean {
  return (
    [...modules, ...spares].some((module) => isByChance(module)) ||
    (supply.kind === 'feed' && varies(supply.every)) ||
    (sweep !== undefined && (varies(sweep.takes) || isOpen(sweep.lost))) ||
    (topUp !== undefined && varies(topUp.takes))
  );
}

function isByChance({ basket, drive, cycle, travel, leak, stops, pull, lever, ...one }: ModuleSpec): boolean {
  const { whenFull } = basket;
  return (
    basket.order === 'mixed' ||
    // Where in its cycle a mechanism stands that never waits is drawn at the opening.
    drive.kind === 'continuous' ||
    isOpen(one.catch) ||
    isOpen(leak) ||
    [cycle, travel, ...(whenFull.kind === 'return' ? [whenFull.time] : [])].some(varies) ||
    stops.some((cause) => strikesByChance(cause)) ||
    (pull !== undefined && [pull.swap, pull.chute, pull.mend].some(varies)) ||
    (lever !== undefined && [lever.takes, lever.time].some(varies))
  );
}

function strikesByChance({ trigger, drops, remedy }: StopCauseSpec): boolean {
  if (isOpen(drops) || timesOf(remedy).some(varies)) return true;
  switch (trigger.kind) {
    case 'per_cycle':
    case 'per_ball':
      // Where in its cycle it strikes is drawn even when it is certain to.
      return trigger.probability > 0;
    case 'running':
    case 'clock':
      return varies(trigger.time);
    case 'at':
      return false;
  }
}

function timesOf(remedy: RemedySpec): readonly Time[] {
  return remedy.kind === 'itself' ? [remedy.time] : [remedy.notice, remedy.walk, remedy.clear];
}

function varies(time: Time | undefined): boolean {
  return time !== undefined && time.family !== 'constant';
}

/** Whether a chance leaves it open what happens. */
function isOpen(chance: number): boolean {
  return chance > 0 && chance < 1;
}
