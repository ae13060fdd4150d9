import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { changeText, changeWords, describeChange } from '../../../packages/sim-core/src/changes/index.js';
import { changesOf } from '../../../packages/sim-core/src/cli/questions/changesOf.js';
import {
  type ChangeOptions,
  withChangeOptions,
} from '../../../packages/sim-core/src/cli/questions/changeOptions.js';

function changesTyped(...words: readonly string[]): ReturnType<typeof changesOf> {
  const command = withChangeOptions(new Command('try').argument('<file>').option('--json'));
  command.exitOverride().configureOutput({ writeErr: () => undefined });
  command.parse([...words], { from: 'user' });
  return changesOf(command.opts<ChangeOptions>());
}

describe('options of a command that takes changes', () => {
  it('are read in the order typed, whatever their kind and wherever the file stands', () => {
    const changes = changesTyped(
      '--without',
      'a',
      '--set',
      'charge=600',
      'file.yaml',
      '--move',
      'b',
      '--after',
      'c',
      '--set=modules.d.cycle={ gamma: { mean: 3 s, cv: 1 } }',
      '--json',
      '--swap',
      'e,f',
      '--with',
      'a',
      '--before',
      'b',
      '--stops-off',
      'g',
      '--set',
      'charge=-700',
    );
    expect(changes.map(changeText)).toEqual([
      '--without a',
      '--set charge=600',
      '--move b --after c',
      '--set modules.d.cycle={ gamma: { mean: 3 s, cv: 1 } }',
      '--swap e,f',
      '--with a --before b',
      '--stops-off g',
      '--set charge=-700',
    ]);
  });

  it('read back what changes are written as', () => {
    const changes = changesTyped(
      'f',
      '--set',
      'a.b=c d',
      '--swap',
      ' e , f',
      '--move',
      'g',
      '--before',
      'h',
      '--without',
      'i',
      '--with',
      'i',
      '--after',
      'j',
      '--stops-off',
      'k',
    );
    expect(changesTyped('f', ...changes.flatMap(changeWords))).toEqual(changes);
  });

  it('are none when none were typed', () => {
    expect(changesTyped('file.yaml')).toEqual([]);
  });

  it('are refused all at once', () => {
    expect(() => changesTyped('f', '--move', 'a', '--set', 'b', '--before', 'c')).toThrow(
      /^--move a: it does not say.*\n--set b: the sign = .*\n--before c: nothing stands before it/,
    );
  });

  it('do not remember what another command was told', () => {
    changesTyped('f', '--set', 'a=1');
    expect(changesTyped('f', '--set', 'b=2').map(changeText)).toEqual(['--set b=2']);
  });
});

describe('describeChange', () => {
  it.each<[path: string, value: string, was: string | undefined, words: string]>([
    ['modules.tipper.basket', '150', '120', "tipper's basket holds 150 instead of 120"],
    ['modules.tipper.basket', '150', undefined, "tipper's basket holds 150"],
    ['modules.tipper.basket', '{ balls: 3 }', undefined, "tipper's basket is { balls: 3 }"],
    ['modules.tipper.batch', '4', '3', 'tipper lifts up to 4 at once instead of 3'],
    ['modules.tipper.cycle', '4 s', '3 s', 'a cycle of tipper takes 4 s instead of 3 s'],
    ['modules.tipper.travel', '4 s', '3 s', 'from tipper to the next basket balls take 4 s instead of 3 s'],
    ['modules.tipper.like', 'lift', 'wheel', 'tipper is like lift instead of wheel'],
    [
      'modules.tipper.stops.jam.per_cycle',
      '0.1',
      '0.2',
      "tipper's stops.jam.per_cycle is 0.1 instead of 0.2",
    ],
    ['templates.lift.leak', '0.1', undefined, 'modules like lift: leak is 0.1'],
    ['charge', '1', '2', '1 ball goes round instead of 2'],
    ['crew.minders', '1', '2', '1 minder is on duty instead of 2'],
    ['crew.shifts[0].minders', '1', '2', 'crew.shifts[0].minders is 1 instead of 2'],
  ])('%s=%s', (path, value, was, words) => {
    expect(describeChange({ kind: 'set', path, value }, was === undefined ? {} : { was })).toBe(words);
  });
});
