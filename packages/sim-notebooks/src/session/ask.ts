import {
  type AnswerParts,
  type ChangedScenario,
  ChangeError,
  InputError,
  type Scenario,
  countedModules,
  type ScenarioReference,
  Study,
  StudyPool,
  StudyStopped,
  toAnswer,
  ValueTable,
} from '@lapwright/sim-core';
import type { Figure } from '../report/index.js';
import { inCellWords } from './inCellWords.js';
import { asLoop, type LoopSource } from './load.js';
import type { Loop } from './loop.js';
import { plainly } from './plainly.js';
import { Reply } from './reply.js';
import { simulating, type SimulationOptions } from './simulating.js';
import { Stopped } from './stopped.js';

/** What a question comes to: its answer, and pictures beside those of the answer. */
export interface Asked {
  readonly parts: AnswerParts;
  readonly figures?: readonly Figure[];
  /** The loops as they are told of in the answer, where that is not just as they were given. */
  readonly scenarios?: readonly ScenarioReference[];
}

/** Shows that were simulated in this session, by seed: no question simulates one again. */
const known = new Map<number, ValueTable>();

/**
 * Asks a question: simulates what it needs, with progress, and gives the answer with where it comes from. What the verbs of
 * all questions have in common.
 *
 * @param loops the loops it is about
 * @param question simulates and says what it comes to
 */
export function ask<L extends readonly LoopSource[]>(
  loops: readonly [...L],
  options: SimulationOptions,
  question: (study: Study, loops: { readonly [K in keyof L]: Loop }) => Promise<Asked>,
): Promise<Reply> {
  return plainly(async () => {
    const about = loops.map(asLoop) as { readonly [K in keyof L]: Loop } & readonly Loop[];
    return simulating(options, async ({ signal, seed, workers, loose, onProgress, stoppedText }) => {
      const table = known.get(seed) ?? new ValueTable();
      known.set(seed, table);
      const source = new StudyPool(workers, { loose });
      const study = new Study({ seed, table, source, signal, onProgress });
      try {
        const {
          parts,
          figures,
          scenarios = about.map(({ scenario }) => reference(scenario)),
        } = await question(study, about);
        return new Reply(toAnswer(parts, { seed, scenarios, shows: study.shows }), figures);
      } catch (error) {
        if (!(error instanceof StudyStopped)) throw inWordsOfCells(error);
        throw new Stopped(`${stoppedText()} They are kept: asked again, it goes on from there.`);
      } finally {
        await study.close();
      }
    });
  });
}

/** Options are named here as they stand between braces; changes are told as they are typed for `change`. */
function inWordsOfCells(error: unknown): unknown {
  if (error instanceof InputError && !(error instanceof ChangeError))
    error.message = inCellWords(error.message);
  return error;
}

/** What an answer says of a loop it is about. */
export function reference(scenario: Scenario | ChangedScenario): ScenarioReference {
  const { name, source, spec } = scenario;
  const { file, sha256 } = source;
  const counted = countedModules(spec, scenario.counted ?? []);
  return {
    name,
    file,
    sha256,
    changes: 'changes' in source ? source.changes : [],
    ...(counted.length > 0 && { counted }),
  };
}
