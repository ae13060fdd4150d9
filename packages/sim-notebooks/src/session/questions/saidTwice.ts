import { InputError } from '@lapwright/sim-core';

/** The fault of two options that say the same thing. */
export function saidTwice(option: string, what: string, other: string): InputError {
  return new InputError([
    {
      code: 'contradiction',
      path: option,
      rule: `${what} is said twice, here and by ${other}`,
      hint: 'Leave one of them out.',
    },
  ]);
}
