/** One thing to be different in a scenario, as it can be typed on a command line. Plain data. */
export type Change =
  /** Another value for a key of the file: `--set modules.tipper.basket=150`. */
  | { readonly kind: 'set'; readonly path: string; readonly value: string }
  /** Two modules of the loop change places. */
  | { readonly kind: 'swap'; readonly modules: readonly [string, string] }
  /** A module of the loop goes to another place in it. */
  | { readonly kind: 'move'; readonly module: string; readonly place: PlaceBeside }
  /** A module goes from the loop to the side table. */
  | { readonly kind: 'without'; readonly module: string }
  /** A module comes from the side table into the loop. */
  | { readonly kind: 'with'; readonly module: string; readonly place: PlaceBeside }
  /** A module never stops. */
  | { readonly kind: 'stops-off'; readonly module: string };

/** Right after or right before another module of the loop. */
export interface PlaceBeside {
  readonly side: 'after' | 'before';
  readonly module: string;
}

/**
 * The words of a change on a command line, not yet quoted for a shell.
 *
 * @example
 * changeWords({ kind: 'move', module: 'tipper', place: { side: 'after', module: 'wheel' } }) // => ['--move', 'tipper', '--after', 'wheel']
 */
export function changeWords(change: Change): string[] {
  switch (change.kind) {
    case 'set':
      return ['--set', `${change.path}=${change.value}`];
    case 'swap':
      return ['--swap', change.modules.join(',')];
    case 'move':
    case 'with':
      return [`--${change.kind}`, change.module, `--${change.place.side}`, change.place.module];
    case 'without':
    case 'stops-off':
      return [`--${change.kind}`, change.module];
  }
}

/**
 * A change as text, as it is typed.
 *
 * @example
 * changeText({ kind: 'set', path: 'charge', value: '600' }) // => '--set charge=600'
 */
export function changeText(change: Change): string {
  return changeWords(change).join(' ');
}
