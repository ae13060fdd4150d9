import { InputError, suggest, type TypedOption } from '@lapwright/sim-core';
import { asLoop, type LoopSource } from './load.js';
import type { Loop } from './loop.js';
import { plainly } from './plainly.js';

const NAMES = ['set', 'swap', 'move', 'without', 'with', 'stops-off', 'after', 'before'] as const;

/**
 * Changes a loop, in the words of the command line, one after the other. What it gives is another loop; the one that it was
 * given stays as it was.
 *
 * The same with completion as you type, after a dot: `loop.set('charge', 60)`, `loop.swap('tipper', 'wheel')`,
 * `loop.move('tipper', { after: 'wheel' })`, `loop.without('tipper')`, `loop.putIn('tipper', { after: 'wheel' })`,
 * `loop.stopsOff('tipper')`.
 *
 * @param changes such as `--set charge=60`, `--swap tipper,wheel`, `--move tipper --after wheel`, `--without tipper`,
 *   `--with tipper --before wheel`, `--stops-off tipper`
 * @throws InputError with every change that cannot be made, and why
 * @example
 * change(load('scenarios/chain-of-five.yaml'), '--swap first,second --set modules.fifth.basket=90').changes // => ['first and second change places', "fifth's basket holds 90 instead of 30"]
 */
export function change(loop: LoopSource, ...changes: readonly string[]): Loop {
  return plainly(() => asLoop(loop).changed(changes.flatMap(typedOptions)));
}

/** The options in a piece of a command line. */
function typedOptions(text: string): TypedOption[] {
  return text
    .trim()
    .split(/\s+(?=--[a-z])/)
    .map((piece) => {
      const [, name = '', value = ''] = /^(?:--)?([a-z-]*)[\s=]*([\s\S]*)$/.exec(piece) ?? [];
      const option = NAMES.find((known) => known === name);
      if (option === undefined) {
        throw new InputError([
          {
            code: 'unknown_name',
            path: '',
            rule: `there is no change of this kind: ${piece}`,
            hint: suggest(name, NAMES),
          },
        ]);
      }
      return { option, value: value.replace(/^(['"])(.*)\1$/, '$2') };
    });
}
