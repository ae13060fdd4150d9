import { describe, expect, it } from 'vitest';
import { parseVariant } from '../../../packages/sim-core/src/index.js';
import { problemsOf } from './smallLoop.js';

describe('a variant written in one piece', () => {
  it('is read like options, each value up to the next', () => {
    expect(
      parseVariant('--set modules.tipper.cycle={ lognormal: { mean: 9 s, cv: 0.1 } } --stops-off wheel'),
    ).toEqual({
      changes: [
        { kind: 'set', path: 'modules.tipper.cycle', value: '{ lognormal: { mean: 9 s, cv: 0.1 } }' },
        { kind: 'stops-off', module: 'wheel' },
      ],
    });
    expect(parseVariant('far off:  --move=tipper --after   wheel --set "name=a -- b"')).toEqual({
      name: 'far off',
      changes: [
        { kind: 'move', module: 'tipper', place: { side: 'after', module: 'wheel' } },
        { kind: 'set', path: 'name', value: 'a -- b' },
      ],
    });
  });

  it.each([
    ['', /^variant "": it changes nothing\. Write such as/],
    ['two minders:', /it changes nothing/],
    ['crew.minders=2 --swap a,b', /"crew\.minders=2" stands before the first change\. A name .* colon/],
    [
      '--sett charge=3 --swpa a,b',
      /--sett is no option that changes a scenario.*set.*\n.*--swpa is no option/,
    ],
    ['--move a', /--move a: it does not say where the module goes/],
    ['--swap a', /--swap a: two modules are needed/],
  ])('that cannot be read is refused: %s', (text, message) => {
    expect(problemsOf(() => parseVariant(text)).join('\n')).toMatch(message);
  });
});
