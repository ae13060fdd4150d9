import {
  applyChanges,
  type Change,
  ChangeError,
  type ChangedScenario,
  parseChanges,
  type TypedOption,
} from '../../../packages/sim-core/src/index.js';

/** A small loop in which most things that a change can touch are there. Line 1 is the first. */
export const SMALL = `name: Small loop
show: { opens: 10:00, lasts: 2 h }
charge: { baskets: { lift: 10, tipper: 18, wheel: 20, stair: 12 } }
counter: lift
crew:
  shifts:
    - { from: 10:00, to: 12:00, minders: 1 }
    - { from: 11:00, to: 12:00, minders: 2 }
  notice: 10 s
  walk: 15 s
  sweep: { every: 5 min, into: lift, takes: 1 min }
  top_up: { below: 40, up_to: 50, box: 30, into: wheel }
templates:
  plain: &plain
    basket: 60
    cycle: 0.9 s
    travel: 4 s
    stops:
      jam: { per_ball: 0.001, drops: 10 %, crew: { clear: { exponential: { mean: 1 min } } } }
      lunch: { at: 11:30, itself: 2 min }
modules:
  lift: { like: plain, batch: 2, cycle: { lognormal: { mean: 1.8 s, cv: 0.1 } } }
  tipper: { like: plain, basket: 20, drive: demand, start_at: 4, batch: 4, cycle: 3.6 s }
  wheel: { like: plain, lever: { watches: [stair, lift], takes: 5 s } }
  stair: { like: plain, basket: { balls: 30, when_full: { return: { to: tipper, time: 2 s } } } }
  idle: *plain
  7: { like: plain, travel: 5 s }
spares:
  second: { like: plain }
order: [lift, tipper, wheel, stair, 7]
`;

/** Changes from the words of a command line, two for each option. */
export function typed(...words: readonly string[]): Change[] {
  const options = words.flatMap((word, i): TypedOption[] =>
    i % 2 === 0 ? [{ option: word.slice(2) as TypedOption['option'], value: words[i + 1] ?? '' }] : [],
  );
  return parseChanges(options);
}

/** The small loop after changes from the words of a command line. */
export function small(...words: readonly string[]): ChangedScenario {
  return applyChanges({ text: SMALL, file: 'small.yaml' }, typed(...words));
}

/** Every problem of what is done, one a line. */
export function problemsOf(act: () => unknown): string[] {
  try {
    act();
    return [];
  } catch (error) {
    if (error instanceof ChangeError) return error.message.split('\n');
    throw error;
  }
}
