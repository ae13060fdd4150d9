import type { Break } from './brokenScenarios.js';

/** A sound loop in which figures of modules of every kind were counted, in lines that are changed. */
export const COUNTED = `name: Counted loop
show: { opens: 10:00, lasts: 6 h }
charge: 60
crew: { minders: 1, notice: 10 s, walk: 15 s }
templates:
  wheel:
    basket: 90
    batch: 4
    cycle: 3.6 s
    travel: 8 s
    stops:
      slip: { per_ball: 0.001, crowded: { above: 70 %, times: 3 }, itself: 20 s }
modules:
  lift:
    basket: 60
    catch: 0.98
    cycle: { lognormal: { mean: 0.9 s, cv: 0.1 } }
    travel: 4 s
    leak: 0.0003
    stops:
      jam: { running: { exponential: { mean: 18 min } }, crew: { clear: { exponential: { mean: 1 min } } } }
      bump: { per_cycle: 0.001, itself: 5 s }
      tired: { clock: { exponential: { mean: 3 h } }, itself: 1 min }
      lunch: { at: [12:30], itself: 5 min }
    counted:
      cycles: 1220
      caught: { of: 3660, balls: 3577 }
      leaked: { of: 3577, balls: 1 }
      stops:
        jam: { stops: 3, in: 55 min, clears: 3, prior: { stops: 2.1, in: 40 min } }
        bump: { stops: 2, cycles: 1220 }
        tired: { stops: 0, in: 1 h 10 min }
  wheel-one:
    like: wheel
    counted:
      stops:
        slip: { stops: 1, balls: 4000, crowded: { stops: 2, balls: 900 }, prior: { stops: 0.5, balls: 800 }, clears: 2 }
spares:
  second: { like: wheel, counted: { cycles: 40 } }
`;

function at(
  line: number,
  from: string,
  to: string,
  path: string,
  says: RegExp,
  reportedLine?: number,
): Break {
  return { line, from, to, path, says, base: COUNTED, ...(reportedLine !== undefined && { reportedLine }) };
}

const LIFT = 'modules.lift.counted';
const JAM = `${LIFT}.stops.jam`;
const SLIP = 'modules.wheel-one.counted.stops.slip';

/** Ways to break what is said of counts. */
export const COUNTED_BREAKS: readonly Break[] = [
  at(25, 'counted:', 'count:', 'modules.lift.count', /counted/),
  at(26, 'cycles: 1220', 'cycle: 1220', `${LIFT}.cycle`, /Did you mean cycles\?/),
  at(26, '1220', '0', `${LIFT}.cycles`, /a whole number from 1/),
  at(26, '1220', '12.5', `${LIFT}.cycles`, /a whole number/),
  at(26, '1220', '1220 cycles', `${LIFT}.cycles`, /without a unit/),
  at(27, '3577', '3661', `${LIFT}.caught`, /3661 balls caught, but only 3660 reached for/),
  at(27, ', balls: 3577', '', `${LIFT}.caught`, /the key "balls" is missing/),
  at(28, 'balls: 1', 'balls: 4000', `${LIFT}.leaked`, /4000 balls leaked, but only 3577 let go/),
  at(28, 'of: 3577, ', '', `${LIFT}.leaked`, /the key "of" is missing/),
  at(30, 'jam:', 'jams:', `${LIFT}.stops.jams`, /no cause of stopping called "jams" here.*jam/),
  at(30, 'jam:', 'lunch:', `${LIFT}.stops.lunch`, /planned stops are no chance/),
  at(30, 'stops: 3,', '', JAM, /the key "stops" is missing/),
  at(30, 'stops: 3', 'stops: 3.5', `${JAM}.stops`, /a whole number/),
  at(30, 'stops: 3', 'stops: -1', `${JAM}.stops`, /from 0/),
  at(30, 'in: 55 min', 'in: 55', `${JAM}.in`, /Write the unit, such as 55 s or 55 min/),
  at(30, 'in: 55 min', 'in: 0 s', `${JAM}.in`, /above 0 s/),
  at(
    30,
    'in: 55 min',
    'cycles: 1220',
    JAM,
    /trigger of this cause is running.*counted over cycles.*in: 55 min/,
  ),
  at(30, 'in: 55 min', 'in: 55 min, balls: 9', JAM, /in and balls cannot both be given/),
  at(30, 'in: 55 min, ', '', JAM, /one of in, cycles, balls is needed/),
  at(30, 'clears: 3', 'clears: some', `${JAM}.clears`, /a whole number/),
  at(30, 'clears: 3', 'crowded: { stops: 1, in: 5 min }', `${JAM}.crowded`, /jam stops no more often while/),
  at(30, ', in: 40 min }', ' }', `${JAM}.prior`, /one of in, cycles, balls is needed/),
  at(30, 'in: 40 min', 'balls: 40', `${JAM}.prior`, /counted over balls/),
  at(31, 'stops: 2', 'stops: 1221', `${LIFT}.stops.bump`, /1221 stops in 1220 cycles cannot be/),
  at(31, 'cycles: 1220', 'in: 20 min', `${LIFT}.stops.bump`, /per_cycle.*in a time.*cycles: 1220/),
  at(32, 'in: 1 h 10 min', 'cycles: 900', `${LIFT}.stops.tired`, /clock.*over cycles/),
  at(37, 'slip: { stops: 1,', 'slip: { stops: 4001,', SLIP, /4001 stops in 4000 balls/),
  at(37, 'crowded: { stops: 2', 'crowded: { stops: 901', `${SLIP}.crowded`, /901 stops in 900 balls/),
  at(37, 'prior: { stops: 0.5', 'prior: { stops: 801', `${SLIP}.prior`, /801 stops in 800 balls/),
  at(
    37,
    'slip: {',
    'jam: {',
    'modules.wheel-one.counted.stops.jam',
    /no cause of stopping called "jam" here/,
  ),
  at(
    8,
    'batch: 4',
    'counted: { cycles: 3 }',
    'templates.wheel.counted',
    /It was one module that was counted/,
  ),
  at(39, 'cycles: 40', 'stops: {}', 'spares.second.counted.stops', /at least one cause of stopping/),
  at(39, '{ cycles: 40 }', '40', 'spares.second.counted', /a group of keys: cycles, caught/),
];
