import { InputError, type Problem } from '../errors/index.js';
import type { LoopSpec } from '../model/spec/index.js';

/**
 * The loop as it stands on the table: some baskets hold what was typed, and the rest of the charge is put into the others
 * ball by ball, as by a hand that goes round and drops one into each that has room.
 *
 * @param levels balls by module id
 * @throws InputError with every level that cannot be
 * @example
 * const { supply } = withLevels(exampleLoop, new Map([['slow', 14]]));
 * supply.placed // => [6, 14]
 */
export function withLevels(spec: LoopSpec, levels: ReadonlyMap<string, number>): LoopSpec {
  const { modules, supply } = spec;
  const problems: Problem[] = [];
  const refuse = (found: unknown, rule: string, hint: string): void =>
    void problems.push({ code: 'out_of_range', path: '--levels', found, rule, hint });
  if (supply.kind === 'feed') {
    throw new InputError([
      {
        code: 'contradiction',
        path: '--levels',
        rule: 'a chain with a feed starts empty, so no levels can be typed in',
        hint: 'Ask for a moment of the show instead: --at 20min.',
      },
    ]);
  }
  const charge = supply.placed.reduce((sum, balls) => sum + balls, 0);
  const typed = modules.map(({ id }) => levels.get(id));
  for (const [m, { id, basket }] of modules.entries()) {
    const level = typed[m];
    if (level !== undefined && level > basket.capacity)
      refuse(
        `${id}=${level}`,
        `at most ${basket.capacity}, which its basket holds`,
        'Count again, or correct the basket in the file.',
      );
  }
  const named = typed.reduce<number>((sum, level) => sum + (level ?? 0), 0);
  const room = modules.map(({ basket }, m) => (typed[m] === undefined ? basket.capacity : 0));
  const rest = charge - named;
  if (rest < 0)
    refuse(
      `${named} balls`,
      `at most ${charge} in all, the charge of the file`,
      'Correct the charge in the file: charge: and the number of balls in the loop.',
    );
  else if (problems.length === 0 && room.reduce((sum, balls) => sum + balls, 0) < rest)
    refuse(
      `${named} balls`,
      `so many that the other ${rest} find room in the other baskets`,
      'Type in more of the full baskets.',
    );
  if (problems.length > 0) throw new InputError(problems);
  return {
    ...spec,
    supply: { kind: 'charge', placed: handOut(rest, room).map((balls, m) => typed[m] ?? balls) },
  };
}

/** Balls handed out one by one, round and round, to places that have room. */
function handOut(balls: number, room: readonly number[]): number[] {
  const placed = room.map(() => 0);
  let left = balls;
  while (left > 0) {
    for (const [m, most] of room.entries()) {
      if (left === 0 || (placed[m] ?? 0) >= most) continue;
      placed[m] = (placed[m] ?? 0) + 1;
      left--;
    }
  }
  return placed;
}
