import type { ModuleCounted, ModuleSpec } from '../model/spec/index.js';
import type { Note, UniformFor } from './drawing.js';
import { chanceQuantile } from './drawRate.js';
import { drawStops } from './drawStops.js';
import { drawTime } from './drawTime.js';

/**
 * Draws the parameters of a module from what was counted of it; what was not counted is taken at its word. Each parameter
 * takes one uniform number by inversion, under a name of its own: `cycle`, `catch`, `leak`, and with the id of the cause
 * `stop:`, `crowded:`, `clear:`; a spread is named behind its time, `cycle spread`.
 *
 * Chance of a catch and of a leak: Beta(balls + 1/2, others + 1/2), Jeffreys' prior. A module without a basket must catch
 * all it reaches for, so its chance stays.
 *
 * @param uniform gives the number of each parameter
 * @param note is told what was drawn @default nobody
 * @example
 * const counted = { module: 'slow', stops: [], caught: { of: 10, balls: 5 } };
 * Number(drawModule(exampleLoop.modules[1], counted, () => 0.5).catch.toFixed(9)) // => 0.5
 */
export function drawModule(
  module: ModuleSpec,
  counted: ModuleCounted,
  uniform: UniformFor,
  note: Note = () => undefined,
): ModuleSpec {
  const share = (name: string, count: { readonly of: number; readonly balls: number }): number => {
    const value = chanceQuantile(uniform(name), { stops: count.balls, over: count.of });
    note(name, value);
    return value;
  };
  const { cycles = 0, caught, leaked } = counted;
  return {
    ...module,
    cycle: drawTime(module.cycle, 'cycle', cycles, uniform, note),
    ...(caught && module.basket.capacity > 0 && { catch: share('catch', caught) }),
    ...(leaked && { leak: share('leak', leaked) }),
    stops: module.stops.map((cause) => {
      const known = counted.stops.find((one) => one.cause === cause.id);
      return known === undefined ? cause : drawStops(cause, known, uniform, note);
    }),
  };
}
