import type { LoopSpec, ModuleSpec } from '../model/spec/index.js';

/** What can happen at one place of the loop at all, by the scenario; what cannot is zero for certain. */
export interface PlacePossibilities {
  /** Balls find no room there and fall. */
  readonly spill: boolean;
  /** Its mechanism waits at the end of a cycle because the next place backs up. */
  readonly heldUp: boolean;
  /** Its module is taken out of the loop. */
  readonly pulled: boolean;
  /** Balls go down its overflow chute. */
  readonly returned: boolean;
  /** Its lever sends balls back. */
  readonly recirculated: boolean;
  /** What stands there stops, drops balls in a stop, leaks. */
  readonly stopped: boolean;
  readonly dropped: boolean;
  readonly leaked: boolean;
}

/** What can happen in a show at all, by the scenario. */
export interface Possibilities {
  /** By place, in loop order. */
  readonly places: readonly PlacePossibilities[];
  /** By spare: whether a place could ever take it. */
  readonly spares: readonly boolean[];
  /** Mechanisms can be held up somewhere. */
  readonly heldUp: boolean;
  /** Modules can be taken out of the loop. */
  readonly pulled: boolean;
  /** Balls can be on an overflow chute or the chute of a lever. */
  readonly chutes: boolean;
  /** The loop can lock: every mechanism that could move waits for another. */
  readonly locked: boolean;
  /** Balls can come from a box. */
  readonly toppedUp: boolean;
}

/**
 * What can happen in a show at all, judged by the scenario alone: so that a zero that is certain is told from one that was
 * only not seen otherwise, and so that reports leave out what does not apply.
 *
 * @example
 * possibilities(exampleLoop).places.map(({ spill, heldUp }) => [spill, heldUp]) // => [[true, false], [true, false]]
 */
export function possibilities(spec: LoopSpec): Possibilities {
  const places = spec.modules.map((module, m) => placePossibilities(spec, module, m));
  const heldUp = places.some((place) => place.heldUp);
  const { topUp } = spec.crew;
  return {
    places,
    spares: (spec.spares ?? []).map((_, s) =>
      spec.modules.some((module) => canBePulled(module) && module.pull?.spares.includes(s)),
    ),
    heldUp,
    pulled: places.some((place) => place.pulled),
    chutes: places.some((place) => place.returned || place.recirculated),
    locked: heldUp && spec.supply.kind === 'charge',
    toppedUp: topUp !== undefined && topUp.box > 0,
  };
}

function placePossibilities(spec: LoopSpec, module: ModuleSpec, m: number): PlacePossibilities {
  const { modules, supply } = spec;
  const standIns = standInsOf(spec, module);
  const both = [module, ...standIns];
  const { whenFull } = module.basket;
  const finite = hasLimit(spec, m);
  const pulled = canBePulled(module);
  const next = supply.kind === 'charge' ? (m + 1) % modules.length : m + 1;
  const behind = modules[next]?.basket.whenFull;
  const recirculated =
    module.lever !== undefined && module.lever.watches.some((w) => (modules[w]?.stops.length ?? 0) > 0);
  return {
    spill:
      finite &&
      (whenFull.kind === 'spill' ||
        // A feed cannot be held back; what comes by a chute or is poured over in a swap spills whatever the place does.
        (whenFull.kind === 'back_up' && supply.kind === 'feed' && m === 0) ||
        pulled ||
        recirculated ||
        modules.some(
          ({ basket }, from) =>
            basket.whenFull.kind === 'return' && basket.whenFull.to === m && hasLimit(spec, from),
        )),
    // Balls on their way fill a run-out too, whatever the basket at its end holds.
    heldUp: behind?.kind === 'back_up' && behind.holds < Infinity,
    pulled,
    returned: whenFull.kind === 'return' && finite,
    recirculated,
    stopped: both.some(({ stops }) => stops.length > 0),
    dropped: both.some(({ stops }) => stops.some(({ drops }) => drops > 0)),
    leaked: both.some(({ leak }) => leak > 0),
  };
}

function canBePulled({ stops, pull }: ModuleSpec): boolean {
  return pull !== undefined && stops.length > 0 && (pull.spares.length > 0 || pull.chute !== undefined);
}

/** The spares that can stand in for a module. */
function standInsOf({ spares = [] }: LoopSpec, module: ModuleSpec): ModuleSpec[] {
  return canBePulled(module) ? (module.pull?.spares ?? []).flatMap((s) => spares[s] ?? []) : [];
}

/** Whether some basket that can stand at a place can be full. */
function hasLimit(spec: LoopSpec, m: number): boolean {
  const module = spec.modules[m];
  return (
    module !== undefined &&
    [module, ...standInsOf(spec, module)].some(({ basket }) => basket.capacity < Infinity)
  );
}
