import type { Break } from './brokenScenarios.js';

/** A sound scenario with days, spares, pull rules, levers and full baskets of every kind, in lines that are changed. */
export const FEATURES = `name: Two sound days
show:
  days:
    - { opens: 10:00, closes: 17:00, breaks: [{ from: 13:00, to: 13:30 }] }
    - { opens: 10:00, closes: 16:00 }
  warm_up: 10 min
charge: 60
crew:
  shifts:
    - { from: 10:00, to: 13:00, minders: 2 }
    - { from: 13:00, to: 17:00, minders: 3 }
    - { from: day 2 12:00, to: day 2 14:00, minders: 1 }
    - { from: 0 h, to: 30 min, minders: 1 }
  rule: fullest_first
  notice: 10 s
  walk: 15 s
  top_up: { below: 50, up_to: 60, box: 20, into: lift, takes: 1 min }
templates:
  wheel:
    basket: { balls: 90, when_full: { back_up: { holds: 12 } } }
    batch: 4
    cycle: 3.6 s
    travel: 8 s
modules:
  lift:
    basket: { balls: 40, when_full: { return: { to: wheel-one, time: 3 s } } }
    cycle: 0.9 s
    travel: 6 s
    lever: { watches: [wheel-one, tangler], takes: 10 s, time: 2 s }
    stops:
      tired: { clock: { exponential: { mean: 1 h } }, itself: 20 s }
      photo: { at: [11:30, day 2 15:00, 90 min], itself: 5 min }
  wheel-one: { like: wheel }
  tangler:
    like: wheel
    stops: { jam: { per_cycle: 0.001, crew: { clear: 1 min } } }
    pull:
      stops: { more_than: 3, within: 1 h }
      outlasts: 5 min
      spares: [plain-lift, old-wheel]
      chute: 5 s
      swap: 90 s
      mend: 2 h
  wheel-two: { like: wheel, pull: { outlasts: 10 min, chute: 4 s, swap: 1 min } }
  bare: { basket: { balls: 0, when_full: { back_up: { holds: 4 } } }, drive: demand, cycle: 1 s, travel: 0 s, lever: { takes: 0 s } }
  wheel-three: { like: wheel, drive: demand, start_at: 2 }
  shelf: { like: wheel, lever: { watches: [lift], takes: 5 s } }
spares:
  plain-lift: { basket: 120, cycle: 0.9 s, travel: 6 s }
  old-wheel: { like: wheel, batch: 3 }
order: [lift, wheel-one, tangler, wheel-two, bare, wheel-three]
table:
  fixed: [lift, shelf]
  together: [[tangler, wheel-two], [bare, wheel-three]]
  apart: [[bare, lift]]
  never_right_after: { tangler: [lift] }
  never_behind: { wheel-one: [bare, wheel-three] }
`;

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
  base: FEATURES,
  ...(reportedLine !== undefined && { reportedLine }),
});

const DAY_ONE = 'show.days[0]';
const FULL = 'templates.wheel.basket.when_full';
const RETURN = 'modules.lift.basket.when_full.return';
const LEVER = 'modules.lift.lever';
const PHOTO = 'modules.lift.stops.photo.at';
const PULL = 'modules.tangler.pull';
const CHUTE = 'modules.wheel-two.pull';

/** Broken by hand, each in one place. */
export const FEATURE_BREAKS: readonly Break[] = [
  // Names of keys
  at(3, 'days:', 'sessions:', 'show.sessions', /Did you mean days\?/),
  at(4, 'opens:', 'open:', `${DAY_ONE}.open`, /Did you mean opens\?/),
  at(4, 'closes:', 'end:', `${DAY_ONE}.end`, /Did you mean closes\?/),
  at(4, 'breaks:', 'pauses:', `${DAY_ONE}.pauses`, /Did you mean breaks\?/),
  at(4, 'from: 13:00', 'start: 13:00', `${DAY_ONE}.breaks[0].start`, /Did you mean from\?/),
  at(5, 'closes: 16:00', 'lasts: 6 h', 'show.days[1].lasts', /nothing here is called "lasts"/),
  at(17, 'top_up:', 'topup:', 'crew.topup', /Did you mean top_up\?/),
  at(17, 'below:', 'belo:', 'crew.top_up.belo', /Did you mean below\?/),
  at(17, 'up_to:', 'upto:', 'crew.top_up.upto', /Did you mean up_to\?/),
  at(20, 'when_full:', 'whenfull:', 'templates.wheel.basket.whenfull', /Did you mean when_full\?/),
  at(20, 'back_up:', 'backup:', `${FULL}.backup`, /Did you mean back_up\?/),
  at(20, 'back_up:', 'block:', `${FULL}.block`, /Did you mean back_up\?/),
  at(20, 'holds:', 'capacity:', `${FULL}.back_up.capacity`, /Did you mean holds\?/),
  at(26, 'return:', 'retrun:', 'modules.lift.basket.when_full.retrun', /Did you mean return\?/),
  at(26, 'to:', 'into:', `${RETURN}.into`, /nothing here is called "into". .*to, time/),
  at(29, 'lever:', 'levers:', 'modules.lift.levers', /Did you mean lever\?/),
  at(29, 'watches:', 'watch:', `${LEVER}.watch`, /Did you mean watches\?/),
  at(31, 'clock:', 'clok:', 'modules.lift.stops.tired.clok', /Did you mean clock\?/),
  at(37, 'pull:', 'pulls:', 'modules.tangler.pulls', /Did you mean pull\?/),
  at(38, 'more_than:', 'more:', `${PULL}.stops.more`, /nothing here is called "more". .*more_than, within/),
  at(39, 'outlasts:', 'outlast:', `${PULL}.outlast`, /Did you mean outlasts\?/),
  at(42, 'swap:', 'swop:', `${PULL}.swop`, /Did you mean swap\?/),
  at(43, 'mend:', 'repair:', `${PULL}.repair`, /Did you mean mend\?/),
  at(48, 'spares:', 'spare:', 'spare', /Did you mean spares\?/),
  at(49, 'basket:', 'bascket:', 'spares.plain-lift.bascket', /Did you mean basket\?/),
  // Units and shapes
  at(4, 'opens: 10:00', 'opens: 10 h', `${DAY_ONE}.opens`, /a time of day such as 10:00/),
  at(4, 'closes: 17:00', 'closes: 24:00', `${DAY_ONE}.closes`, /a time of day such as 10:00/),
  at(4, 'to: 13:30', 'to: 30 min', `${DAY_ONE}.breaks[0].to`, /a time of day such as 10:00/),
  at(4, '[{ from: 13:00, to: 13:30 }]', '13:00', `${DAY_ONE}.breaks`, /a list/),
  at(4, '[{ from: 13:00, to: 13:30 }]', '[]', `${DAY_ONE}.breaks`, /0 items/),
  at(5, '{ opens: 10:00, closes: 16:00 }', '10:00', 'show.days[1]', /a group of keys: opens, closes, breaks/),
  at(12, 'day 2 12:00', 'day two 12:00', 'crew.shifts[2].from', /such as 11:30 or day 2 11:30/),
  at(12, 'day 2 12:00', 'day 0 12:00', 'crew.shifts[2].from', /such as 11:30 or day 2 11:30/),
  at(12, 'day 2 12:00', 'day 2', 'crew.shifts[2].from', /such as 11:30 or day 2 11:30/),
  at(17, 'below: 50', 'below: 50 s', 'crew.top_up.below', /a number of balls/),
  at(17, 'takes: 1 min', 'takes: 1', 'crew.top_up.takes', /Write the unit, such as 1 s/),
  at(20, 'holds: 12', 'holds: 12 cm', `${FULL}.back_up.holds`, /a number of balls/),
  at(20, '{ back_up: { holds: 12 } }', 'back_up', FULL, /must be spill, { back_up: { holds: 30 } } or/),
  at(20, '{ back_up: { holds: 12 } }', '{}', FULL, /one of back_up, return is needed/),
  at(20, '{ holds: 12 }', '12', `${FULL}.back_up`, /a group of keys: holds/),
  at(26, 'time: 3 s', 'time: 3', `${RETURN}.time`, /Write the unit, such as 3 s/),
  at(29, '[wheel-one, tangler]', 'tangler', `${LEVER}.watches`, /a list/),
  at(29, 'takes: 10 s', 'takes: 10', `${LEVER}.takes`, /Write the unit, such as 10 s/),
  at(31, 'mean: 1 h', 'mean: 1', 'modules.lift.stops.tired.clock.exponential.mean', /Write the unit/),
  at(38, 'within: 1 h', 'within: 1', `${PULL}.stops.within`, /Write the unit, such as 1 s/),
  at(38, '{ more_than: 3, within: 1 h }', '3', `${PULL}.stops`, /a group of keys: more_than, within/),
  at(39, '5 min', '5 m', `${PULL}.outlasts`, /Did you mean min\?/),
  at(40, '[plain-lift, old-wheel]', 'plain-lift', `${PULL}.spares`, /a list/),
  at(40, '[plain-lift, old-wheel]', '[]', `${PULL}.spares`, /0 items/),
  at(42, '90 s', '90', `${PULL}.swap`, /Write the unit, such as 90 s/),
  at(43, '2 h', '2 hrs', `${PULL}.mend`, /The units here are ms, s, min, h, d/),
  at(47, 'takes: 5 s', 'takes: 5', 'modules.shelf.lever.takes', /Write the unit/),
  // Numbers out of range
  at(17, 'box: 20', 'box: -20', 'crew.top_up.box', /a whole number from 0/),
  at(17, 'up_to: 60', 'up_to: 60.5', 'crew.top_up.up_to', /a whole number/),
  at(20, 'holds: 12', 'holds: -1', `${FULL}.back_up.holds`, /a whole number from 0/),
  at(31, 'mean: 1 h', 'mean: 0 s', 'modules.lift.stops.tired.clock.exponential.mean', /above 0 s/),
  at(38, 'more_than: 3', 'more_than: -1', `${PULL}.stops.more_than`, /a whole number from 0/),
  at(38, 'more_than: 3', 'more_than: 2.5', `${PULL}.stops.more_than`, /a whole number/),
  at(38, 'within: 1 h', 'within: 0 h', `${PULL}.stops.within`, /from 1 s/),
  at(39, '5 min', '0 s', `${PULL}.outlasts`, /from 1 s/),
  at(41, '5 s', '0 s', `${PULL}.chute`, /from 0\.01 s/),
  at(43, '2 h', '90 d', `${PULL}.mend`, /to 5184000 s/),
  // Names
  at(17, 'into: lift', 'into: lfit', 'crew.top_up.into', /Did you mean lift\?/),
  at(17, 'into: lift', 'into: shelf', 'crew.top_up.into', /shelf is on the side table/),
  at(26, 'to: wheel-one', 'to: wheel-oen', `${RETURN}.to`, /Did you mean wheel-one\?/),
  at(
    26,
    'to: wheel-one',
    'to: shelf',
    `${RETURN}.to`,
    /shelf is on the side table, but a module in the loop/,
  ),
  at(
    26,
    'to: wheel-one',
    'to: plain-lift',
    `${RETURN}.to`,
    /plain-lift is a spare, but a module in the loop/,
  ),
  at(29, 'tangler', 'tanglr', `${LEVER}.watches[1]`, /Did you mean tangler\?/),
  at(29, 'tangler', 'shelf', `${LEVER}.watches[1]`, /shelf is on the side table/),
  at(29, 'tangler', 'old-wheel', `${LEVER}.watches[1]`, /old-wheel is a spare/),
  at(40, 'plain-lift', 'plain-lfit', `${PULL}.spares[0]`, /Did you mean plain-lift\?/),
  at(40, 'plain-lift', 'lift', `${PULL}.spares[0]`, /lift is a module, but a spare is needed here/),
  at(47, 'watches: [lift]', 'watches: [lfit]', 'modules.shelf.lever.watches[0]', /Did you mean lift\?/),
  at(50, 'like: wheel', 'like: weel', 'spares.old-wheel.like', /Did you mean wheel\?/),
  at(51, 'bare', 'plain-lift', 'order[4]', /plain-lift is a spare, but a module is needed here/),
  // One thing twice
  at(
    29,
    '[wheel-one, tangler]',
    '[tangler, tangler]',
    `${LEVER}.watches[1]`,
    /module tangler stands .* twice/,
  ),
  at(40, 'old-wheel', 'plain-lift', `${PULL}.spares[1]`, /spare plain-lift stands in this list twice/),
  at(49, 'plain-lift:', 'lift:', 'spares.lift', /there is a module lift already/),
  at(49, 'plain-lift:', 'shelf:', 'spares.shelf', /there is a module shelf already/),
  at(50, 'old-wheel:', 'plain-lift:', 'spares.plain-lift', /the same key stands here twice/),
  // What must be there
  at(4, ' closes: 17:00,', '', DAY_ONE, /the key "closes" is missing/),
  at(17, 'below: 50, ', '', 'crew.top_up', /the key "below" is missing/),
  at(17, 'into: lift, ', '', 'crew.top_up', /the key "into" is missing/),
  at(26, ', time: 3 s', '', RETURN, /the key "time" is missing/),
  at(29, ', takes: 10 s', '', LEVER, /the key "takes" is missing/),
  at(38, ', within: 1 h', '', `${PULL}.stops`, /the key "within" is missing/),
  at(42, 'swap: 90 s', '', PULL, /the key "swap" is missing/, 38),
  at(44, 'outlasts: 10 min, ', '', CHUTE, /one of stops, outlasts is needed/),
  at(44, 'chute: 4 s, ', '', CHUTE, /one of spares, chute is needed/),
  at(49, 'basket: 120, ', '', 'spares.plain-lift', /the key "basket" is missing/),
  // What does not belong
  at(
    49,
    'basket: 120',
    'basket: { balls: 120, when_full: spill }',
    'spares.plain-lift.basket.when_full',
    /does not belong here.*belongs to the place/,
  ),
  at(
    49,
    'travel: 6 s',
    'travel: 6 s, lever: { takes: 1 s }',
    'spares.plain-lift.lever',
    /goes with its module/,
  ),
  at(
    49,
    'travel: 6 s',
    'travel: 6 s, pull: { outlasts: 5 min, chute: 5 s, swap: 1 min }',
    'spares.plain-lift.pull',
    /A spare is never pulled/,
  ),
  at(6, 'warm_up: 10 min', 'lasts: 6 h', 'show', /lasts and days cannot both be given/, 3),
  at(6, 'warm_up: 10 min', 'opens: 10:00', 'show', /opens and days cannot both be given/, 3),
  at(
    20,
    'holds: 12 }',
    'holds: 12 }, return: { time: 3 s }',
    FULL,
    /back_up and return cannot both be given/,
  ),
  at(
    31,
    'itself: 20 s',
    'itself: 20 s, crowded: { above: 50 %, times: 2 }',
    'modules.lift.stops.tired',
    /clock and crowded cannot both be given/,
  ),
  at(
    31,
    'itself: 20 s',
    'itself: 20 s, running: 1 h',
    'modules.lift.stops.tired',
    /running and clock cannot both be given/,
  ),
  // Days
  at(4, 'closes: 17:00', 'closes: 9:00', DAY_ONE, /this day closes \(09:00\) before it opens \(10:00\)/),
  at(4, 'closes: 17:00', 'closes: 10:00', DAY_ONE, /this day closes/),
  at(4, 'to: 13:30', 'to: 12:30', `${DAY_ONE}.breaks[0]`, /this break ends \(12:30\) before it begins/),
  at(4, 'from: 13:00', 'from: 9:30', `${DAY_ONE}.breaks[0]`, /not within the day, from 10:00 to 17:00/),
  at(4, 'from: 13:00', 'from: 10:00', `${DAY_ONE}.breaks[0]`, /not within the day/),
  at(4, 'to: 13:30', 'to: 17:00', `${DAY_ONE}.breaks[0]`, /not within the day/),
  at(4, '13:30 }', '13:30 }, { from: 13:30, to: 14:00 }', `${DAY_ONE}.breaks[1]`, /after the end of the one/),
  at(4, '13:30 }', '13:30 }, { from: 12:00, to: 12:30 }', `${DAY_ONE}.breaks[1]`, /after the end of the one/),
  at(6, '10 min', '12 h 30 min', 'show', /the warm-up .* is not shorter than the show \(12 h 30 min\)/, 3),
  at(10, 'to: 13:00', 'to: 9:00', 'crew.shifts[0]', /this shift ends \(09:00\) before it begins \(10:00\)/),
  at(11, 'from: 13:00', 'from: 17:00', 'crew.shifts[1]', /this shift ends \(17:00\) before it begins/),
  at(11, '13:00, to: 17:00', '17:00, to: 18:00', 'crew.shifts[1]', /no part of this shift is in public time/),
  at(12, 'to: day 2 14:00', 'to: day 3 14:00', 'crew.shifts[2].to', /this is day 3, but the show has 2/),
  at(12, 'to: day 2 14:00', 'to: day 1 14:00', 'crew.shifts[2]', /ends \(day 1 14:00\) before .*day 2 12:00/),
  at(12, 'from: day 2', 'from:', 'crew.shifts[2].from', /means every day.*Write the day too: day 1 12:00/),
  at(12, 'to: day 2 14:00', 'to: 2 h', 'crew.shifts[2]', /this shift ends \(2 h after the opening\)/),
  at(12, '12:00, to: day 2 14:00', '16:00, to: day 2 18:00', 'crew.shifts[2]', /no part of this shift/),
  at(13, 'to: 30 min', 'to: 20 h', 'crew.shifts[3].to', /the show lasts 12 h 30 min/),
  at(13, 'to: 30 min', 'to: 10:30', 'crew.shifts[3].to', /means every day, but the other end/),
  at(32, '11:30', '13:15', `${PHOTO}[0]`, /13:15 on day 1 is in closed time.* and from 13:30 to 17:00/),
  at(32, '11:30', '16:30', `${PHOTO}[0]`, /16:30 on day 2 is in closed time.*write day 1 16:30/),
  at(32, '11:30', '9:30', `${PHOTO}[0]`, /09:30 on day 1 is in closed time/),
  at(32, 'day 2 15:00', 'day 2 16:00', `${PHOTO}[1]`, /16:00 on day 2 is in closed time: .* 10:00 to 16:00/),
  at(32, 'day 2 15:00', 'day 4 15:00', `${PHOTO}[1]`, /this is day 4, but the show has 2/),
  at(32, '90 min', '13 h', `${PHOTO}[2]`, /the show lasts 12 h 30 min/),
  // What cannot both hold
  at(7, 'charge: 60', 'feed: { steady: 1 bps }', 'crew.top_up', /this is an open chain with a feed/, 17),
  at(17, 'below: 50', 'below: 61', 'crew.top_up', /below 61 balls, but brings the path up to 60 only/),
  at(17, 'up_to: 60', 'up_to: 81', 'crew.top_up', /there are 60 in the loop and 20 in the box.*up_to: 80/),
  at(20, 'holds: 12', 'holds: 0', FULL, /the run-out to wheel-one holds no ball, but balls take time on it/),
  at(
    20,
    'holds: 12',
    'holds: 3',
    FULL,
    /wheel-one lifts up to 4 balls at once, .* to tangler holds 3: .*holds: 4/,
  ),
  at(21, 'batch: 4', 'batch: 13', FULL, /tangler lifts up to 13 balls .* wheel-two holds 12/, 20),
  at(50, 'batch: 3', 'batch: 13', FULL, /the spare old-wheel in place of tangler lifts up to 13/, 20),
  at(
    45,
    'holds: 4',
    'holds: 0',
    'modules.bare.basket.when_full',
    /the run-out to bare holds no ball, .* wheel-two could never let go. Write holds: 4 or more/,
  ),
  // wheel-three takes 90 - 2 + 1 balls at the least, and its run-out 12.
  at(45, 'travel: 0 s', 'travel: 0 s, batch: 102', FULL, /bare lifts up to 102 .* take 101 only/, 20),
  at(26, 'to: wheel-one', 'to: lift', `${RETURN}.to`, /would run back into this same basket/),
  at(29, 'wheel-one', 'lift', `${LEVER}.watches[0]`, /a lever cannot watch its own module/),
  at(45, 'drive: demand, ', '', 'modules.bare.basket', /a basket of 0 balls is no basket/),
  at(
    45,
    'drive: demand',
    'drive: demand, start_at: 2',
    'modules.bare.basket',
    /starts at 1 ball and catches all/,
  ),
  at(
    45,
    'cycle: 1 s',
    'cycle: 1 s, stops: { jam: { per_ball: 1 %, crowded: { above: 0, times: 2 }, itself: 9 s } }',
    'modules.bare.stops.jam',
    /there is no basket that could be crowded/,
  ),
  at(45, 'cycle: 1 s', 'cycle: 1 s, catch: 0.9', 'modules.bare.basket', /catches all can do without/),
  at(
    49,
    'travel: 6 s',
    'travel: 6 s, stops: { rest: { at: [1 h], itself: 5 min } }',
    'spares.plain-lift.stops.rest',
    /a spare has no planned stops/,
  ),
  at(46, 'start_at: 2', 'start_at: 91', 'modules.wheel-three', /it would never start/),
  // What must hold of the order: lines 53 to 57
  at(53, 'fixed:', 'fixd:', 'table.fixd', /Did you mean fixed\?/),
  at(53, '[lift, shelf]', 'lift', 'table.fixed', /a list/),
  at(53, 'shelf', 'shlef', 'table.fixed[1]', /no module "shlef" here.*shelf/),
  at(53, 'shelf', 'plain-lift', 'table.fixed[1]', /plain-lift is a spare, but a module is needed/),
  at(53, 'shelf', 'lift', 'table.fixed[1]', /lift stands in this list twice/),
  at(54, '[[tangler, wheel-two], [bare, wheel-three]]', 'builder', 'table.together', /builders/),
  at(54, '[bare, wheel-three]', '[bare]', 'table.together[1]', /1 items, but from 2/),
  at(54, '[bare, wheel-three]', 'bare', 'table.together[1]', /a list/),
  at(54, 'wheel-three]', 'wheel-tree]', 'table.together[1][1]', /wheel-three/),
  at(55, '[bare, lift]', '[bare, lift, shelf]', 'table.apart[0]', /3 items, but from 2 to 2/),
  at(55, '[bare, lift]', '[bare, bare]', 'table.apart[0][1]', /bare stands in this list twice/),
  at(56, '[lift]', '[tangler]', 'table.never_right_after.tangler', /tangler cannot stand after itself/),
  at(56, 'tangler:', 'tangle:', 'table.never_right_after.tangle', /no module "tangle" here.*tangler/),
  at(57, 'wheel-three]', '12 s]', 'table.never_behind.wheel-one[1]', /no module "12 s"/),
  at(57, '[bare, wheel-three]', 'bare', 'table.never_behind.wheel-one', /a list/),
];
