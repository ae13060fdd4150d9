import { describe, expect, it } from 'vitest';
import { describeProblem, InputError, parseScenario } from '../../../packages/sim-core/src/index.js';
import { COUNTED, COUNTED_BREAKS } from './brokenCounted.js';
import { FEATURE_BREAKS, FEATURES } from './brokenFeatures.js';
import { BREAKS, changed, SOUND } from './brokenScenarios.js';

function problemsOf(text: string): InputError['problems'] {
  try {
    parseScenario(text, 'broken.yaml');
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
}

describe('the sound scenario', () => {
  it('is read without a problem', () => {
    expect(problemsOf(SOUND)).toEqual([]);
    expect(problemsOf(FEATURES)).toEqual([]);
    expect(problemsOf(COUNTED)).toEqual([]);
  });

  it('is broken in more than two hundred ways', () => {
    expect(BREAKS.length).toBeGreaterThanOrEqual(100);
    expect(FEATURE_BREAKS.length).toBeGreaterThanOrEqual(100);
  });
});

describe('a mistake that others rest on', () => {
  it.each([
    [
      'a walk without a unit',
      'walk: { triangular: { min: 5 s, mode: 10 s, max: 30 s } }',
      'walk: 5',
      'crew.walk',
    ],
    ['a misspelt drive', 'drive: demand', 'drive: on demand', 'modules.tipper.drive'],
  ])('is told once: %s', (_, from, to, path) => {
    expect(problemsOf(SOUND.replace(from, to)).map((problem) => problem.path)).toEqual([path]);
  });
});

describe('a broken scenario names file, line and path, and says what to write instead', () => {
  it.each(
    [...BREAKS, ...FEATURE_BREAKS, ...COUNTED_BREAKS].map((one) => ({
      ...one,
      name: `line ${one.line}: ${one.to || '(taken out)'}`,
    })),
  )('$name', ({ line, path, says, reportedLine = line, ...one }) => {
    const problems = problemsOf(changed({ line, ...one }));
    const meant = problems.find(
      (one) => one.path === path && one.line === reportedLine && says.test(describeProblem(one)),
    );
    const all = new InputError(problems).message;
    expect(meant, all).toBeDefined();
    expect(describeProblem(meant ?? { code: 'syntax', path: '', rule: '' })).toMatch(
      /^broken\.yaml:\d+:\d+: /,
    );
    expect(all).not.toMatch(/\bat .*\.(?:js|ts):\d+/);
  });
});
