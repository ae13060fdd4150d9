import { whenItStopsAnswer } from '../../answers/index.js';
import { InputError, type Problem } from '../../errors/index.js';
import type { LoopSpec } from '../../model/spec/index.js';
import { momentOf } from '../../replay/index.js';
import { type Scenario, suggest } from '../../scenario/index.js';
import { settledAfter, whenItStops, withLevels } from '../../studies/index.js';
import { formatSeconds } from '../../units/index.js';
import { shellWord } from '../shellWord.js';
import type { Ask } from './askedScenario.js';

/** When and how long a module stops, and what is looked at. Times in seconds. */
export interface WhenStopsQuestionOptions {
  /** Pairs of shows. */
  readonly replications: number;
  readonly for?: number;
  readonly clearedIn?: number;
  readonly at?: string;
  readonly levels?: string;
  readonly watch: number;
  readonly sure: number;
  readonly swapTakes?: number;
}

/** How long a module stops, unless told otherwise. */
const STOP_SECONDS = 300;

/**
 * What happens when one module stops now, and by when hands must act.
 *
 * @throws InputError when it cannot be asked like this: every problem that can be told at once
 * @example
 * const { scenario } = askedFile('scenarios/chain-of-five.yaml');
 * const study = new Study({ seed: 1, source: showsHere() });
 * const ask = whenStopsQuestion(scenario, 'second', { for: 120, watch: 600, sure: 0.95, replications: 3 });
 * (await ask(study)).question // => 'when-stops'
 */
export function whenStopsQuestion(
  scenario: Scenario,
  module: string,
  options: WhenStopsQuestionOptions,
): Ask {
  const { replications, clearedIn, levels, watch, sure, swapTakes } = options;
  const lasts = options.for ?? clearedIn ?? STOP_SECONDS;
  const { spec, atSeconds } = readQuestion(scenario.spec, module, options, lasts);
  const holds = spec.modules.find(({ id }) => id === module)?.basket.capacity;
  return async (study) =>
    whenItStopsAnswer(
      await whenItStops(study, spec, {
        module,
        replications,
        atSeconds,
        ...(clearedIn === undefined ? { stopSeconds: lasts } : { clearSeconds: clearedIn }),
        watchSeconds: watch,
        sure,
        ...(swapTakes !== undefined && { swapSeconds: swapTakes }),
      }),
      {
        show: spec.show,
        typed: levels !== undefined,
        file: shellWord(scenario.source.file),
        options: typedOptions(options),
        ...(holds !== undefined && { holds }),
      },
    );
}

/** What says when and how long it stops, as it may be typed again. */
function typedOptions({ for: lasts, clearedIn, at, levels }: WhenStopsQuestionOptions): string {
  return [
    ...(lasts === undefined ? [] : ['--for', `${lasts}s`]),
    ...(clearedIn === undefined ? [] : ['--cleared-in', `${clearedIn}s`]),
    ...(at === undefined ? [] : ['--at', shellWord(at)]),
    ...(levels === undefined ? [] : ['--levels', shellWord(levels)]),
  ].join(' ');
}

/** The loop and the moment that is asked about. Tells all that is wrong with them at once. */
function readQuestion(
  spec: LoopSpec,
  module: string,
  { at, levels }: WhenStopsQuestionOptions,
  lasts: number,
): { readonly spec: LoopSpec; readonly atSeconds: number } {
  const problems: Problem[] = [];
  const attempt = <T>(what: () => T): T | undefined => {
    try {
      return what();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems);
      return undefined;
    }
  };
  const names = spec.modules.map(({ id }) => id);
  if (!names.includes(module)) {
    problems.push({
      code: 'unknown_name',
      path: '<module>',
      found: module,
      rule: 'a module of the loop',
      hint: suggest(module, names),
    });
  }
  const typed = levels === undefined ? undefined : attempt(() => readLevels(levels, names));
  const loop = typed === undefined ? spec : attempt(() => withLevels(spec, typed));
  const atSeconds =
    levels !== undefined
      ? 0
      : at === undefined
        ? settledAfter(spec)
        : attempt(() => momentOf('--at', at, spec.show));
  if (atSeconds !== undefined && atSeconds + lasts >= spec.show.seconds) {
    problems.push({
      code: 'out_of_range',
      path: '--at',
      rule: `a stop of ${formatSeconds(lasts)} that begins ${formatSeconds(atSeconds)} after the opening is not over when the show is, after ${formatSeconds(spec.show.seconds)}`,
      hint: 'Ask for an earlier moment, such as --at 10min, or a shorter stop.',
    });
  }
  if (problems.length > 0 || loop === undefined || atSeconds === undefined) throw new InputError(problems);
  return { spec: loop, atSeconds };
}

/** Reads levels as `gatehouse=40,tipper=90`. */
function readLevels(text: string, names: readonly string[]): Map<string, number> {
  const problems: Problem[] = [];
  const levels = new Map<string, number>();
  const refuse = (code: Problem['code'], found: string, rule: string, hint: string): void =>
    void problems.push({ code, path: '--levels', found, rule, hint });
  for (const part of text.split(',')) {
    const [, name = '', balls = ''] = /^\s*([^=]*?)\s*=\s*(.*?)\s*$/.exec(part) ?? [];
    if (!/^\d{1,7}$/.test(balls))
      refuse(
        'wrong_type',
        part,
        'a module and how many balls its basket holds',
        'Write it as in gatehouse=40,tipper=90.',
      );
    else if (!names.includes(name))
      refuse('unknown_name', name, 'a module of the loop', suggest(name, names));
    else if (levels.has(name)) refuse('duplicate', name, 'named once', 'Write each basket once.');
    else levels.set(name, Number(balls));
  }
  if (problems.length > 0) throw new InputError(problems);
  return levels;
}
