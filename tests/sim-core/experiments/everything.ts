/** Invented scenarios in which the rarer things happen: everything at once, and a loop that locks. */

/** Two days, the first with a break; backing up, a chute, a lever, spares, a plain chute, a box, sweeping. */
export const EVERYTHING = `name: Everything at once
show:
  days:
    - { opens: 10:00, closes: 16:00, breaks: [{ from: 12:30, to: 13:15 }] }
    - { opens: 9:30, closes: 13:00 }
charge: 240
crew:
  minders: 2
  notice: 15 s
  walk: 20 s
  sweep: { every: 15 min, into: gate, takes: 90 s, lost: 20 % }
  top_up: { below: 225, up_to: 240, box: 30, into: gate, takes: 60 s }
templates:
  lift: { basket: 60, cycle: { lognormal: { mean: 0.9 s, cv: 0.05 } }, travel: 5 s }
modules:
  gate: { like: lift, builder: Perrin, basket: 160 }
  stairs:
    like: lift
    title: Crooked stairs
    builder: Maudlin
    stops: { jam: { per_ball: 0.0015, drops: 30 %, crew: { clear: { lognormal: { mean: 90 s, cv: 0.8 } } } } }
    pull:
      stops: { more_than: 2, within: 30 min }
      outlasts: 5 min
      spares: [second-stairs]
      chute: 4 s
      swap: 2 min
      mend: 40 min
  mill:
    like: lift
    basket: { balls: 40, when_full: { back_up: { holds: 12 } } }
    cycle: { lognormal: { mean: 0.95 s, cv: 0.05 } }
    stops: { stall: { running: { exponential: { mean: 40 min } }, crew: { clear: 2 min } } }
  wheel: { like: lift, basket: { balls: 40, when_full: { back_up: { holds: 10 } } } }
  heron:
    like: lift
    leak: 0.002
    lever: { watches: [long-jump], takes: 20 s, time: 3 s }
  long-jump:
    like: lift
    basket: { balls: 50, when_full: { return: { to: wheel, time: 6 s } } }
    stops: { derailed: { per_cycle: 0.0008, crew: { clear: { exponential: { mean: 150 s } } } } }
    pull: { outlasts: 8 min, spares: [second-stairs], swap: 3 min }
  owl-post: { like: lift, travel: 12 s }
spares:
  second-stairs:
    like: lift
    title: Second stairs
    builder: Maudlin
    stops: { jam: { per_ball: 0.0003, crew: { clear: 60 s } } }
`;

/**
 * Every basket backs up, and after the first leak somebody fills the loop up: with 60 balls in baskets and 3 in mechanisms
 * nothing can move any more. 54 balls, less the one that asked for it, and 10 from the box are just that many; a second
 * leak before that saves the loop.
 */
export const LOCKS = `name: A loop that locks
show: { opens: 10:00, lasts: 4 h }
charge: 54
crew: { minders: 1, top_up: { below: 63, up_to: 63, box: 10, into: first, takes: 20 s } }
templates:
  t:
    basket: { balls: 20, when_full: { back_up: { holds: 0 } } }
    cycle: { lognormal: { mean: 1 s, cv: 0.3 } }
    travel: 0 s
modules:
  first: { like: t, leak: 0.0005 }
  second: { like: t }
  third: { like: t }
`;
