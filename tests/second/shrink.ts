import type { LoopSpec, ModuleSpec } from '../../packages/sim-core/src/model/spec/index.js';

/**
 * The smallest scenario found, by leaving out one thing after another, of which something still holds.
 *
 * @param holds true of the scenario, and of what is to be found; false where it cannot be tried
 */
export function shrink(spec: LoopSpec, holds: (smaller: LoopSpec) => boolean): LoopSpec {
  for (const smaller of smallerThan(spec)) if (holds(smaller)) return shrink(smaller, holds);
  return spec;
}

function* smallerThan(spec: LoopSpec): Generator<LoopSpec> {
  const { crew, show } = spec;
  if (show.seconds > 10) yield { ...spec, show: { ...show, seconds: Math.floor(show.seconds * 0.8) } };
  if (show.sessions) yield { ...spec, show: { seconds: show.seconds, warmUpSeconds: show.warmUpSeconds } };
  if (show.warmUpSeconds > 0) yield { ...spec, show: { ...show, warmUpSeconds: 0 } };
  const { sweep, topUp, ...rest } = crew;
  if (sweep) yield { ...spec, crew: { ...rest, ...(topUp && { topUp }) } };
  if (topUp) yield { ...spec, crew: { ...rest, ...(sweep && { sweep }) } };
  if (crew.duty.length > 1) yield { ...spec, crew: { ...crew, duty: crew.duty.slice(0, 1) } };
  if (crew.rule !== 'first_come') yield { ...spec, crew: { ...crew, rule: 'first_come' } };
  for (const [m, module] of spec.modules.entries()) {
    for (const smaller of smallerModules(module))
      yield { ...spec, modules: spec.modules.map((other, at) => (at === m ? smaller : other)) };
  }
  for (const [i, spare] of (spec.spares ?? []).entries()) {
    for (const smaller of smallerModules(spare))
      yield { ...spec, spares: (spec.spares ?? []).map((other, at) => (at === i ? smaller : other)) };
  }
  if (spec.supply.kind !== 'charge') return;
  for (const [m, balls] of spec.supply.placed.entries()) {
    if (balls === 0) continue;
    const placed = spec.supply.placed.map((other, at) => (at === m ? other - 1 : other));
    yield { ...spec, supply: { kind: 'charge', placed } };
  }
}

function* smallerModules(module: ModuleSpec): Generator<ModuleSpec> {
  const { pull, lever, ...rest } = module;
  if (pull) yield { ...rest, ...(lever && { lever }) };
  if (lever) yield { ...rest, ...(pull && { pull }) };
  for (const cause of module.stops)
    yield { ...module, stops: module.stops.filter((other) => other !== cause) };
  for (const cause of module.stops) {
    const { crowded, ...plain } = cause;
    const without = (smaller: typeof cause): ModuleSpec => ({
      ...module,
      stops: module.stops.map((other) => (other === cause ? smaller : other)),
    });
    if (crowded) yield without(plain);
    if (cause.drops > 0) yield without({ ...cause, drops: 0 });
    if (cause.trigger.kind !== 'at' || cause.trigger.times.length === 1) continue;
    for (const time of cause.trigger.times)
      yield without({ ...cause, trigger: { kind: 'at', times: [time] } });
  }
  const { basket } = module;
  if (basket.whenFull.kind !== 'spill')
    yield { ...module, basket: { ...basket, whenFull: { kind: 'spill' } } };
  if (basket.capacity < Infinity) yield { ...module, basket: { ...basket, capacity: Infinity } };
  if (module.drive.kind === 'demand' && module.drive.startAt > 1)
    yield { ...module, drive: { kind: 'demand', startAt: 1 } };
  if (module.batch > 1) yield { ...module, batch: 1 };
  if (module.leak > 0) yield { ...module, leak: 0 };
}
