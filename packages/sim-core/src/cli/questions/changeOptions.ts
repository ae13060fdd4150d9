import { type Command, Option } from 'commander';
import type { TypedOption } from '../../changes/index.js';

/** Options as they were typed, each with its turn among all of them. */
interface Typed extends TypedOption {
  readonly turn: number;
}

/** Options of a command that takes changes, as commander gives them. */
export interface ChangeOptions {
  readonly set?: readonly Typed[];
  readonly swap?: readonly Typed[];
  readonly move?: readonly Typed[];
  readonly without?: readonly Typed[];
  readonly with?: readonly Typed[];
  readonly stopsOff?: readonly Typed[];
  readonly after?: readonly Typed[];
  readonly before?: readonly Typed[];
}

const TEXTS: Readonly<Record<TypedOption['option'], readonly [flags: string, doc: string]>> = {
  set: [
    '--set <key=value>',
    'what if: another value for a key of the file, as in --set modules.tipper.basket=150',
  ],
  swap: ['--swap <a,b>', 'what if: two modules change places'],
  move: ['--move <module>', 'what if: a module goes elsewhere; with --after or --before'],
  without: ['--without <module>', 'what if: a module goes to the side table'],
  with: ['--with <module>', 'what if: a module comes from the side table; with --after or --before'],
  'stops-off': ['--stops-off <module>', 'what if: a module never stops'],
  after: ['--after <module>', 'right behind --move or --with: the module that it comes behind'],
  before: ['--before <module>', 'right behind --move or --with: the module that it comes before'],
};

/** Gives a command the options that change a scenario; each may be typed many times, and their order counts. */
export function withChangeOptions(command: Command): Command {
  let turn = 0;
  for (const [name, [flags, doc]] of Object.entries(TEXTS)) {
    const option = name as TypedOption['option'];
    command.addOption(
      new Option(flags, doc).argParser((value: string, earlier?: readonly Typed[]): readonly Typed[] => [
        ...(earlier ?? []),
        { option, value, turn: turn++ },
      ]),
    );
  }
  return command;
}
