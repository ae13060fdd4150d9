/** A sound scenario, in lines that the broken ones change. Line 1 is the first. */
export const SOUND = `name: Sound loop
about: A small loop that is in order.
show:
  opens: 10:00
  lasts: 6 h
  warm_up: 10 min
charge: 40
ball_diameter: 14 mm
counter: lift
crew:
  shifts:
    - { from: 10:00, to: 13:00, minders: 2 }
    - { from: 3 h, to: 6 h, minders: 3 }
  rule: first_come
  notice: 10 s
  walk: { triangular: { min: 5 s, mode: 10 s, max: 30 s } }
  sweep: { every: 5 min, into: lift, takes: 1 min, lost: 1 % }
templates:
  wheel:
    builder: Perrin
    basket: { width: 64 mm, depth: 8 studs, height: 10 bricks, packing: 0.6 }
    batch: 4
    cycle: { lognormal: { mean: 3.6 s, cv: 0.05 } }
    travel: 8 s
    stops:
      jam: { per_cycle: 0.001, crew: { clear: { exponential: { mean: 1 min } } } }
modules:
  lift:
    title: The lift
    basket: 150
    catch: 0.98
    cycle: 0.9 s
    travel: { empirical: [7 s, 8 s, 9 s] }
    leak: 0.0001
    stops:
      slip:
        running: { weibull: { mean: 2 h, cv: 0.7 } }
        crowded: { above: 70 %, times: 3 }
        drops: 20 %
        itself: { gamma: { mean: 20 s, cv: 0.5 } }
      lunch: { at: [12:30, 5 h], itself: 5 min }
  tipper: { like: wheel, drive: demand, start_at: 4 }
  wheel-two: { like: wheel, basket: { balls: 90, order: mixed } }
order: [lift, tipper, wheel-two]
house_rules:
  spills_per_hour: 80
  overflow_risk: 30 %
  least_throughput: 0.9 bps
  longest_lap: 15 min
`;

/** One way to break it: what stands in a line and what is put in its place, and where the problem must be reported. */
export interface Break {
  readonly line: number;
  readonly from: string;
  readonly to: string;
  readonly path: string;
  /** Where the problem is reported when not in the changed line. */
  readonly reportedLine?: number;
  readonly says: RegExp;
  /** The scenario that is broken; SOUND if not given. */
  readonly base?: string;
}

const at = (
  line: number,
  from: string,
  to: string,
  path: string,
  says: RegExp,
  reportedLine?: number,
): Break => ({
  line,
  from,
  to,
  path,
  says,
  ...(reportedLine !== undefined && { reportedLine }),
});

/** Broken by hand, each in one place. */
export const BREAKS: readonly Break[] = [
  // Names of keys
  at(1, 'name:', 'nane:', 'nane', /nothing here is called "nane". Did you mean name\?/),
  at(2, 'about:', 'abuot:', 'abuot', /Did you mean about\?/),
  at(3, 'show:', 'shwo:', 'shwo', /Did you mean show\?/),
  at(4, 'opens:', 'open:', 'show.open', /Did you mean opens\?/),
  at(5, 'lasts:', 'length:', 'show.length', /Did you mean lasts\?/),
  at(6, 'warm_up:', 'warmup:', 'show.warmup', /Did you mean warm_up\?/),
  at(7, 'charge:', 'balls:', 'balls', /Did you mean charge\?/),
  at(8, 'ball_diameter:', 'ball-diameter:', 'ball-diameter', /Did you mean ball_diameter\?/),
  at(10, 'crew:', 'crews:', 'crews', /Did you mean crew\?/),
  at(11, 'shifts:', 'shift:', 'crew.shift', /Did you mean shifts\?/),
  at(12, 'minders:', 'minder:', 'crew.shifts[0].minder', /Did you mean minders\?/),
  at(17, 'every:', 'evry:', 'crew.sweep.evry', /Did you mean every\?/),
  at(18, 'templates:', 'template:', 'template', /Did you mean templates\?/),
  at(21, 'packing:', 'paking:', 'templates.wheel.basket.paking', /Did you mean packing\?/),
  at(22, 'batch:', 'bacth:', 'templates.wheel.bacth', /Did you mean batch\?/),
  at(23, 'lognormal:', 'log_normal:', 'templates.wheel.cycle.log_normal', /Did you mean lognormal\?/),
  at(23, 'cv:', 'CV:', 'templates.wheel.cycle.lognormal.CV', /Did you mean cv\?/),
  at(26, 'per_cycle:', 'percycle:', 'templates.wheel.stops.jam.percycle', /Did you mean per_cycle\?/),
  at(26, 'clear:', 'clears:', 'templates.wheel.stops.jam.crew.clears', /Did you mean clear\?/),
  at(27, 'modules:', 'module:', 'module', /Did you mean modules\?/),
  at(30, 'basket:', 'bascket:', 'modules.lift.bascket', /Did you mean basket\?/),
  at(37, 'running:', 'runing:', 'modules.lift.stops.slip.runing', /Did you mean running\?/),
  at(38, 'above:', 'over:', 'modules.lift.stops.slip.crowded.over', /Did you mean above\?/),
  at(42, 'start_at:', 'startat:', 'modules.tipper.startat', /Did you mean start_at\?/),
  at(43, 'order:', 'ordr:', 'modules.wheel-two.basket.ordr', /Did you mean order\?/),
  at(44, 'order:', 'orders:', 'orders', /Did you mean order\?/),
  // Units
  at(
    5,
    '6 h',
    '6',
    'show.lasts',
    /found 6, but this must be a time with its unit.*Write the unit, such as 6 s or 6 min or 6 h\./,
  ),
  at(5, '6 h', '6 hours', 'show.lasts', /Did you mean h\?/),
  at(5, '6 h', '6h 30', 'show.lasts', /found "6h 30"/),
  at(6, '10 min', '10 m', 'show.warm_up', /Did you mean min\?/),
  at(7, '40', '40 s', 'charge', /a number of balls/),
  at(8, '14 mm', '14', 'ball_diameter', /Write the unit, such as 14 mm or 14 studs/),
  at(8, '14 mm', '14 s', 'ball_diameter', /The units here are mm, cm, m/),
  at(15, '10 s', '10 sec', 'crew.notice', /Did you mean s\?/),
  at(16, '30 s', '30', 'crew.walk.triangular.max', /Write the unit, such as 30 s or 30 min/),
  at(17, '5 min', '5', 'crew.sweep.every', /Write the unit, such as 5 s or 5 min/),
  at(17, '1 %', '1 percent', 'crew.sweep.lost', /Did you mean %\?/),
  at(21, '64 mm', '64', 'templates.wheel.basket.width', /Write the unit, such as 64 mm or 64 studs/),
  at(21, '8 studs', '8 knobs', 'templates.wheel.basket.depth', /The units here are/),
  at(22, '4', '4 s', 'templates.wheel.batch', /a number of balls/),
  at(
    23,
    '3.6 s',
    '3,6 s',
    'templates.wheel.cycle.lognormal.mean',
    /"3,6 s" has a decimal comma. Write a decimal point: 3\.6 s/,
  ),
  at(24, '8 s', '8', 'templates.wheel.travel', /Write the unit, such as 8 s or 8 min/),
  at(24, '8 s', '8 bps', 'templates.wheel.travel', /a time with its unit/),
  at(32, '0.9 s', '0.9 S', 'modules.lift.cycle', /Did you mean s\?/),
  at(33, '8 s,', '8,', 'modules.lift.travel.empirical[1]', /Write the unit, such as 8 s or 8 min/),
  // Numbers out of range
  at(5, '6 h', '0 s', 'show.lasts', /from 1 s to/),
  at(5, '6 h', '-6 h', 'show.lasts', /from 1 s to/),
  at(5, '6 h', '100 d', 'show.lasts', /from 1 s to/),
  at(5, '6 h', '1e400 h', 'show.lasts', /from 1 s to/),
  at(6, '10 min', '7 h', 'show', /the warm-up .* is not shorter than the show/, 4),
  at(7, '40', '-40', 'charge', /a whole number from 0/),
  at(7, '40', '40.5', 'charge', /a whole number/),
  at(7, '40', '.nan', 'charge', /found NaN/),
  at(7, '40', '.inf', 'charge', /found Infinity/),
  at(7, '40', '100000', 'charge', /all baskets together hold/),
  at(8, '14 mm', '0 mm', 'ball_diameter', /from 1 mm/),
  at(8, '14 mm', '200 mm', 'templates.wheel.basket', /holds no ball/, 21),
  at(12, 'minders: 2', 'minders: -1', 'crew.shifts[0].minders', /a whole number from 0/),
  at(12, 'minders: 2', 'minders: 2.5', 'crew.shifts[0].minders', /a whole number/),
  at(12, 'minders: 2', 'minders: two', 'crew.shifts[0].minders', /found "two"/),
  at(12, 'to: 13:00', 'to: 10:00', 'crew.shifts[0]', /this shift ends/),
  at(13, 'to: 6 h', 'to: 9 h', 'crew.shifts[1].to', /the show lasts/),
  at(16, 'min: 5 s', 'min: 50 s', 'crew.walk', /max is 30 but must be/),
  at(16, 'mode: 10 s', 'mode: 1 min', 'crew.walk', /mode is 60 but must be/),
  at(17, 'every: 5 min', 'every: 0 s', 'crew.sweep.every', /from 1 s/),
  at(17, 'lost: 1 %', 'lost: 101 %', 'crew.sweep.lost', /a share from 0 to 1/),
  at(21, 'packing: 0.6', 'packing: 0.9', 'templates.wheel.basket.packing', /from 0\.3 to 0\.74/),
  at(21, 'width: 64 mm', 'width: 0 mm', 'templates.wheel.basket.width', /above 0 mm/),
  at(22, 'batch: 4', 'batch: 0', 'templates.wheel.batch', /from 1 to 10000/),
  at(22, 'batch: 4', 'batch: 1.5', 'templates.wheel.batch', /a whole number/),
  at(22, 'batch: 4', 'batch: 1e9', 'templates.wheel.batch', /from 1 to 10000/),
  at(23, 'cv: 0.05', 'cv: -0.05', 'templates.wheel.cycle.lognormal.cv', /from 0 to 100/),
  at(23, 'cv: 0.05', 'cv: 0', 'templates.wheel.cycle', /cv is 0 but must be above 0/),
  at(23, 'cv: 0.05', 'cv: 5 %', 'templates.wheel.cycle.lognormal.cv', /without a unit/),
  at(23, 'mean: 3.6 s', 'mean: 0 s', 'templates.wheel.cycle.lognormal.mean', /above 0 s/),
  at(26, 'per_cycle: 0.001', 'per_cycle: 1.5', 'templates.wheel.stops.jam.per_cycle', /a share from 0 to 1/),
  at(31, 'catch: 0.98', 'catch: 0', 'modules.lift.catch', /above 0, at most 1/),
  at(31, 'catch: 0.98', 'catch: 98', 'modules.lift.catch', /above 0, at most 1/),
  at(32, 'cycle: 0.9 s', 'cycle: 0.001 s', 'modules.lift.cycle', /from 0\.01 s/),
  at(34, 'leak: 0.0001', 'leak: -1 %', 'modules.lift.leak', /a share from 0 to 1/),
  at(37, 'cv: 0.7', 'cv: 0.001', 'modules.lift.stops.slip.running', /cv is 0\.001 but must be/),
  at(38, 'above: 70 %', 'above: 170 %', 'modules.lift.stops.slip.crowded.above', /a share from 0 to 1/),
  at(38, 'times: 3', 'times: -3', 'modules.lift.stops.slip.crowded.times', /from 0 to 10000/),
  at(39, 'drops: 20 %', 'drops: 2', 'modules.lift.stops.slip.drops', /a share from 0 to 1/),
  at(41, '5 h]', '7 h]', 'modules.lift.stops.lunch.at[1]', /the show lasts/),
  at(41, '12:30', '25:30', 'modules.lift.stops.lunch.at[0]', /a time of day such as 11:30/),
  at(41, '12:30', '9:30', 'modules.lift.stops.lunch.at[0]', /the show lasts/),
  at(42, 'start_at: 4', 'start_at: 900', 'modules.tipper', /it would never start/),
  at(43, 'balls: 90', 'balls: -1', 'modules.wheel-two.basket.balls', /from 0 to/),
  at(43, 'balls: 90', 'balls: 0', 'modules.wheel-two.basket', /a basket of 0 balls is no basket/),
  at(41, '12:30', 'day 2 12:30', 'modules.lift.stops.lunch.at[0]', /the show is one stretch of time/),
  at(12, 'to: 13:00', 'to: day 1 13:00', 'crew.shifts[0].to', /Write days: in the show section/),
  // Rules of the house
  at(45, 'house_rules', 'house_rule', 'house_rule', /Did you mean house_rules\?/),
  at(46, 'spills_per_hour', 'spils_per_hour', 'house_rules.spils_per_hour', /Did you mean spills_per_hour\?/),
  at(46, '80', '80 balls', 'house_rules.spills_per_hour', /a number from 0 to 1000000, without a unit/),
  at(46, '80', '-1', 'house_rules.spills_per_hour', /a number from 0/),
  at(47, '30 %', '130 %', 'house_rules.overflow_risk', /a share from 0 to 1/),
  at(47, '30 %', '30', 'house_rules.overflow_risk', /In percent it is written 30 %/),
  at(48, '0.9 bps', '0.9', 'house_rules.least_throughput', /Write the unit, such as 0\.9 bps/),
  at(48, '0.9 bps', '0 bps', 'house_rules.least_throughput', /above 0 bps/),
  at(49, '15 min', '15', 'house_rules.longest_lap', /Write the unit, such as 15 s or 15 min/),
  at(49, '15 min', '0 s', 'house_rules.longest_lap', /from 1 s/),
  // Names
  at(9, 'counter: lift', 'counter: lfit', 'counter', /Did you mean lift\?/),
  at(17, 'into: lift', 'into: bin', 'crew.sweep.into', /there is no module in the loop called "bin"/),
  at(42, 'like: wheel', 'like: weel', 'modules.tipper.like', /Did you mean wheel\?/),
  at(44, 'tipper', 'tripper', 'order[1]', /Did you mean tipper\?/),
  at(44, 'tipper', 'lift', 'order[1]', /stands in the order twice/),
  at(28, 'lift:', 'the lift:', 'modules.the lift', /cannot be the name of a module/),
  at(42, 'tipper:', 'lift:', 'modules.lift', /the same key stands here twice/),
  at(32, 'cycle:', 'catch:', 'modules.lift.catch', /the same key stands here twice/),
  at(14, 'first_come', 'first_served', 'crew.rule', /one of first_come, fullest_first/),
  at(42, 'demand', 'on-demand', 'modules.tipper.drive', /one of continuous, demand/),
  at(43, 'mixed', 'lifo', 'modules.wheel-two.basket.order', /one of fifo, mixed/),
  // Contradictions and gaps
  at(
    37,
    'running: { weibull: { mean: 2 h, cv: 0.7 } }',
    'running: { weibull: { mean: 2 h, shape: 2 } }',
    'modules.lift.stops.slip.running.weibull',
    /mean goes with cv/,
  ),
  at(
    37,
    'cv: 0.7',
    'cv: 0.7, scale: 1 h',
    'modules.lift.stops.slip.running.weibull',
    /mean and scale cannot both be given/,
  ),
  at(40, 'itself:', 'per_ball: 0.1, itself:', '', /two keys stand on one line|colon|not belong/),
  at(
    41,
    'itself: 5 min',
    'itself: 5 min, per_ball: 0.1',
    'modules.lift.stops.lunch',
    /per_ball and at cannot both be given/,
  ),
  at(41, 'itself: 5 min', 'drops: 0', 'modules.lift.stops.lunch', /one of itself, crew is needed/),
  at(
    42,
    'drive: demand',
    'drive: continuous',
    'modules.tipper',
    /start_at is given, but the drive is continuous/,
  ),
  at(
    43,
    'balls: 90',
    'balls: 90, width: 64 mm',
    'modules.wheel-two.basket',
    /balls and width cannot both be given/,
  ),
  at(21, 'height: 10 bricks, ', '', 'templates.wheel.basket', /the key "height" is missing/),
  at(
    26,
    'clear: { exponential: { mean: 1 min } }',
    'walk: 5 s',
    'templates.wheel.stops.jam.crew',
    /the key "clear" is missing/,
  ),
  at(30, 'basket: 150', 'builder: Maudlin', 'modules.lift', /the key "basket" is missing/, 28),
  at(32, 'cycle: 0.9 s', 'batch: 1', 'modules.lift', /the key "cycle" is missing/, 28),
  at(
    7,
    'charge: 40',
    'feed: { steady: 1 bps, poisson: 1 bps }',
    'feed',
    /steady and poisson cannot both be given/,
  ),
  at(
    7,
    'charge: 40',
    'feed: { poisson: 1 bps, first: 3 s }',
    'feed',
    /poisson and first cannot both be given/,
  ),
  at(7, 'charge: 40', 'feed: { bursts: { balls: 30 } }', 'feed.bursts', /the key "every" is missing/),
  at(7, 'charge: 40', 'charge: { baskets: { lift: 151 } }', 'charge.baskets.lift', /it holds 150/),
  at(7, 'charge: 40', 'charge: { baskets: { lfit: 15 } }', 'charge.baskets.lfit', /Did you mean lift\?/),
  at(4, 'opens: 10:00', '', 'crew.shifts[0].from', /a time of day needs the opening time/, 12),
  at(15, 'notice: 10 s', '', 'templates.wheel.stops.jam', /nothing says the notice time/, 26),
  // Shapes
  at(5, 'lasts: 6 h', 'lasts: [6 h]', 'show.lasts', /found a list/),
  at(5, 'lasts: 6 h', 'lasts:', 'show.lasts', /found nothing/),
  at(22, 'batch: 4', 'batch: { balls: 4 }', 'templates.wheel.batch', /found a group of keys/),
  at(
    23,
    '{ lognormal: { mean: 3.6 s, cv: 0.05 } }',
    '{ lognormal: 3.6 s }',
    'templates.wheel.cycle.lognormal',
    /a group of keys: mean, cv/,
  ),
  at(
    23,
    '{ lognormal: { mean: 3.6 s, cv: 0.05 } }',
    '{}',
    'templates.wheel.cycle',
    /one of uniform, triangular/,
  ),
  at(33, '{ empirical: [7 s, 8 s, 9 s] }', '{ empirical: [] }', 'modules.lift.travel.empirical', /0 items/),
  at(33, '{ empirical: [7 s, 8 s, 9 s] }', '{ empirical: 7 s }', 'modules.lift.travel.empirical', /a list/),
  at(41, '[12:30, 5 h]', '{ noon: 12:30 }', 'modules.lift.stops.lunch.at', /a list/),
  at(
    26,
    'jam: { per_cycle: 0.001, crew: { clear: { exponential: { mean: 1 min } } } }',
    'per_cycle: 0.001',
    'templates.wheel.stops.per_cycle',
    /Give each cause a name of your own/,
  ),
  at(44, '[lift, tipper, wheel-two]', 'lift', 'order', /a list/),
  at(44, '[lift, tipper, wheel-two]', '[]', 'order', /0 items/),
  at(44, '[lift, tipper, wheel-two]', '[lift, [tipper], wheel-two]', 'order[1]', /the name of a module/),
  // Syntax
  at(3, 'show:', 'show', '', /colon|not belong|indent/),
  at(5, '  lasts', '\tlasts', '', /a tab is used to indent/),
  at(12, '{ from', '[ from', '', /bracket|not belong|missing/),
  at(21, '0.6 }', '0.6', '', /bracket|missing|indented|not belong/, 22),
  at(29, 'The lift', '"The lift', '', /quote/),
  at(30, 'basket: 150', 'basket: *big', 'modules.lift.basket', /an alias of nothing above it/),
  at(44, '[lift, tipper, wheel-two]', '[lift, tipper, wheel-two]]', '', /not belong/),
  at(24, '    travel', '   travel', '', /not indented|colon|indent/),
];

/** The sound scenario with one line changed. */
export function changed({
  line,
  from,
  to,
  base = SOUND,
}: Pick<Break, 'line' | 'from' | 'to' | 'base'>): string {
  const lines = base.split('\n');
  const old = lines[line - 1] ?? '';
  if (!old.includes(from)) throw new Error(`line ${line} is "${old}", without "${from}"`);
  lines[line - 1] = old.replace(from, to);
  return lines.join('\n');
}
