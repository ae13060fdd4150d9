import type { LoopSpec, ModuleCounted, ModuleSpec } from '../model/spec/index.js';
import { stream } from '../random/index.js';
import type { UniformFor } from './drawing.js';
import { drawModule } from './drawModule.js';

/** Which of the draws is meant. */
export interface DrawAddress {
  readonly seed: number;
  /** Number of the draw, from 0. */
  readonly draw: number;
}

/**
 * The loop as it may well be, given what its figures were counted from: the parameters of each counted module are drawn from
 * what so few counts leave open (input uncertainty: Cheng & Holland 1997, Journal of Statistical Computation and Simulation
 * 57, 219-241; Zouaoui & Wilson 2003, IIE Transactions 35, 781-792; both from memory).
 *
 * The streams go by the id of the module and the parameter, so that a module meets the same draw in every loop.
 *
 * @param counted of modules and spares; those that are not in the loop are passed over
 * @example
 * const counted = [{ module: 'slow', stops: [{ cause: 'jam', stops: 3, over: 3300, clears: 0 }] }];
 * drawParameters(exampleLoop, counted, { seed: 1, draw: 0 }).modules[0] === exampleLoop.modules[0] // => true
 */
export function drawParameters(
  spec: LoopSpec,
  counted: readonly ModuleCounted[],
  address: DrawAddress,
): LoopSpec {
  const drawn = (module: ModuleSpec): ModuleSpec => {
    const known = counted.find((one) => one.module === module.id);
    return known === undefined ? module : drawModule(module, known, uniformsOf(module.id, address));
  };
  const { modules, spares } = spec;
  return { ...spec, modules: modules.map(drawn), ...(spares && { spares: spares.map(drawn) }) };
}

/**
 * What was drawn of one module, by parameter: rates per second, chances, means in seconds, spreads.
 *
 * @example
 * const counted = { module: 'slow', stops: [{ cause: 'jam', stops: 3, over: 3300, clears: 0 }] };
 * [...drawnOf(exampleLoop.modules[1], counted, { seed: 1, draw: 0 }).keys()] // => ['stop:jam']
 */
export function drawnOf(
  module: ModuleSpec,
  counted: ModuleCounted,
  address: DrawAddress,
): ReadonlyMap<string, number> {
  const values = new Map<string, number>();
  drawModule(module, counted, uniformsOf(module.id, address), (name, value) => values.set(name, value));
  return values;
}

function uniformsOf(place: string, { seed, draw }: DrawAddress): UniformFor {
  return (parameter) => stream({ seed, replication: draw, place, purpose: `counted:${parameter}` })();
}
