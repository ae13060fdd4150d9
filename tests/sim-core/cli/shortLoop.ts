/**
 * Two short mornings of a small loop, with all that makes a show differ from another: stops, a minder who is not always there,
 * a sweep, a spare that is put in and the module that comes back. Cheap, for tests of what does not depend on the loop.
 */
export const SHORT_LOOP = `name: Short mornings
show:
  days:
    - { opens: 10:00, closes: 11:00, breaks: [{ from: 10:30, to: 10:40 }] }
    - { opens: 10:00, closes: 10:40 }
charge: 50
crew:
  shifts:
    - { from: 10:00, to: 11:00, minders: 1 }
    - { from: day 2 10:20, to: day 2 10:40, minders: 1 }
  notice: 10 s
  walk: 15 s
  sweep: { every: 5 min, into: pendulum, takes: 20 s }
modules:
  pendulum:
    basket: 60
    cycle: 0.9 s
    travel: 8 s
    stops: { photo: { at: 10:20, itself: 1 min } }
  cuckoo:
    basket: 40
    batch: 2
    cycle: { lognormal: { mean: 1.8 s, cv: 0.1 } }
    travel: 8 s
    stops:
      hiccup: { clock: { exponential: { mean: 10 min } }, crew: { clear: { exponential: { mean: 30 s } } } }
      spring: { at: day 1 10:45, crew: { clear: 5 min } }
    pull: { outlasts: 3 min, spares: [metronome], swap: 1 min, mend: 20 min }
  hourglass: { basket: 60, batch: 3, cycle: 2.6 s, travel: 8 s }
spares:
  metronome: { basket: 40, cycle: 0.95 s, travel: 8 s }
`;
