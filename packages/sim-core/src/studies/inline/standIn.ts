import type { LoopSpec, ModuleSpec, PullSpec } from '../../model/spec/index.js';

/** Name of a plain chute that stands in the place of a module for good. */
export const CHUTE = 'plain chute';

/** Seconds in which a plain chute lets one ball go: quicker than any lift. */
const CHUTE_SECONDS = 0.1;

/**
 * A plain chute in the place of a module: balls run out of its basket one after the other, ten in a second, and it never
 * stops. Balls need as long down it as from the module, or as its pull rule says.
 *
 * @example
 * plainChuteFor(exampleLoop.modules[0]).stops // => []
 */
export function plainChuteFor({ basket, travel, pull }: ModuleSpec): ModuleSpec {
  return {
    id: CHUTE,
    basket: { ...basket, order: 'fifo' },
    drive: { kind: 'demand', startAt: 1 },
    batch: 1,
    catch: 1,
    cycle: { family: 'constant', value: CHUTE_SECONDS },
    travel: pull?.chute ?? travel,
    leak: 0,
    stops: [],
  };
}

/**
 * The loop with something else in the place of a module. A spare that is used so is no longer on the side table for the
 * others. What happens when its basket is full belongs to the place; balls that its basket cannot hold at the start go to
 * the next baskets that have room.
 *
 * @param module id of a module in the loop
 * @throws Error when it is not in the loop
 * @example
 * inItsPlace(exampleLoop, 'slow', plainChuteFor(exampleLoop.modules[1])).modules[1].id // => 'plain chute'
 */
export function inItsPlace(spec: LoopSpec, module: string, standIn: ModuleSpec): LoopSpec {
  const place = spec.modules.findIndex(({ id }) => id === module);
  const out = spec.modules[place];
  if (out === undefined) throw new Error(`no module of the loop is called ${module}`);
  const used = (spec.spares ?? []).findIndex(({ id }) => id === standIn.id);
  const { spares: _spares, ...rest } = spec;
  const spares = (spec.spares ?? []).filter((_, s) => s !== used);
  const { pull: _pull, lever: _lever, ...stands } = standIn;
  const modules = spec.modules.map((one, m) =>
    m === place
      ? { ...stands, basket: { ...standIn.basket, whenFull: out.basket.whenFull } }
      : used < 0
        ? one
        : withoutSpare(one, used),
  );
  return {
    ...rest,
    modules,
    supply:
      spec.supply.kind === 'feed'
        ? spec.supply
        : { kind: 'charge', placed: fitted(spec.supply.placed, modules) },
    ...(spares.length > 0 && { spares }),
  };
}

/** Spares are named by number: those behind the one that is gone move up. A rule without anything to put in goes. */
function withoutSpare(module: ModuleSpec, gone: number): ModuleSpec {
  if (module.pull === undefined) return module;
  const { pull, ...rest } = module;
  const spares = pull.spares.filter((s) => s !== gone).map((s) => (s > gone ? s - 1 : s));
  const kept: PullSpec = { ...pull, spares };
  return spares.length > 0 || pull.chute !== undefined ? { ...rest, pull: kept } : rest;
}

/** What finds no room goes on to the next baskets, round and round; what finds none at all is left out. */
function fitted(placed: readonly number[], modules: readonly ModuleSpec[]): number[] {
  const held = placed.map((balls, m) => Math.min(balls, modules[m]?.basket.capacity ?? 0));
  let over = placed.reduce((sum, balls, m) => sum + balls - (held[m] ?? 0), 0);
  const first = placed.findIndex((balls, m) => balls > (held[m] ?? 0));
  for (let step = 1; over > 0 && step < placed.length; step++) {
    const m = (first + step) % placed.length;
    const more = Math.min(over, (modules[m]?.basket.capacity ?? 0) - (held[m] ?? 0));
    held[m] = (held[m] ?? 0) + more;
    over -= more;
  }
  return held;
}
