import { readScenarioText, type Scenario, ScenarioDocument } from '../scenario/index.js';
import { type Change, changeText } from './change.js';
import { ChangeError } from './changeError.js';
import { describeChange } from './describeChange.js';
import { type Obstacle, orderOf } from './draft.js';
import { FormPlaces } from './formPlaces.js';
import { hashOf } from './hashOf.js';
import { move, putIn, swap, takeOut } from './placeChanges.js';
import { setKey } from './setKey.js';
import { stopsOff } from './stopsOff.js';
import { inOrder, type Reading, type Traced, traced } from './trace.js';
import { valueWords } from './valueWords.js';

/** A scenario that was made from a file by changes. */
export interface ChangedScenario extends Scenario {
  readonly source: Scenario['source'] & {
    /** The changes as they are typed, in the order in which they were made, not quoted for a shell. */
    readonly changes: readonly string[];
  };
  readonly changes: readonly Change[];
  /** The same in plain words, each with what was before. */
  readonly changesInWords: readonly string[];
}

/** Text of a scenario file that was read already. */
export interface ScenarioText {
  readonly text: string;
  /** Its name, for messages and provenance. @default 'scenario' */
  readonly file?: string;
}

/** More changes than anybody types, and few enough to read the scenario after each. */
const MOST_CHANGES = 200;

/**
 * Reads a scenario and makes changes to it, one after the other. What comes out is checked like every file; it must be in
 * order after the last change, not after each.
 *
 * @param from path of a scenario file, or its text
 * @throws InputError when the file cannot be used as it stands
 * @throws ChangeError when changes cannot be made or do not leave a scenario that can be used: every problem, each with
 *   the change it comes from
 * @example
 * const text = '{ name: bench, show: { lasts: 1 h }, feed: { steady: 1 bps }, modules: { lift: { basket: 150, cycle: 0.9 s, travel: 5 s } } }';
 * applyChanges({ text }, [{ kind: 'set', path: 'modules.lift.basket', value: '90' }]).changesInWords // => ["lift's basket holds 90 instead of 150"]
 */
export function applyChanges(from: string | ScenarioText, changes: readonly Change[]): ChangedScenario {
  const draft = openDraft(from);
  if (changes.length > MOST_CHANGES) {
    const rule = `there are ${changes.length} changes, at most ${MOST_CHANGES} can be made at once`;
    throw new ChangeError([
      { code: 'out_of_range', path: '', rule, hint: 'Write them into a file.', change: 'too many changes' },
    ]);
  }
  const form = new FormPlaces();
  const { source, ...original } = draft.original;
  const obstacles: Traced[] = [];
  const inWords: string[] = [];
  const loops = [orderOf(draft)];
  const readings: Reading[] = [{ scenario: original, problems: [] }];
  for (const [turn, change] of changes.entries()) {
    const before = readings.at(-1)?.scenario;
    const told = change.kind === 'set' ? { ...change, path: toldOf(change.path) } : change;
    const was = told.kind === 'set' ? valueWords(draft, told.path, before) : undefined;
    const found = make(draft, change, form, before);
    obstacles.push(...found.map((problem) => ({ turn, problem })));
    const reading = draft.read();
    readings.push(reading);
    loops.push(orderOf(draft));
    const is = told.kind === 'set' ? valueWords(draft, told.path, reading.scenario) : undefined;
    const words = describeChange(told, {
      ...(was !== undefined && { was }),
      ...(is !== undefined && { is }),
    });
    inWords.push(`${words}${backedLess(change, before, reading.scenario) ? AT_ITS_WORD : ''}`);
  }
  const last = readings.at(-1);
  const problems = [...obstacles, ...traced(readings, changes, loops, draft)];
  if (last?.scenario === undefined || problems.length > 0) throw new ChangeError(inOrder(problems, changes));
  return {
    ...last.scenario,
    source: { ...source, changes: changes.map(changeText) },
    changes,
    changesInWords: inWords,
  };
}

/** The content of a scenario file, to be changed. */
export function openDraft(from: string | ScenarioText): ScenarioDocument {
  if (typeof from === 'string') {
    const { text, sha256 } = readScenarioText(from);
    return new ScenarioDocument(text, from, sha256);
  }
  return new ScenarioDocument(from.text, from.file ?? 'scenario', hashOf(from.text));
}

/**
 * The content of a scenario file with changes made to it, to be changed further.
 *
 * @param changes such as have been made to it before, by `applyChanges`: what stands in their way is not told here
 */
export function changedDraft(from: string | ScenarioText, changes: readonly Change[]): ScenarioDocument {
  const draft = openDraft(from);
  const form = new FormPlaces();
  for (const change of changes) make(draft, change, form, draft.read().scenario);
  return draft;
}

function make(
  draft: ScenarioDocument,
  change: Change,
  form: FormPlaces,
  before: Reading['scenario'],
): Obstacle[] {
  switch (change.kind) {
    case 'set':
      return setKey(draft, change, form);
    case 'swap':
      return swap(draft, change.modules);
    case 'move':
      return move(draft, change);
    case 'with':
      return putIn(draft, change);
    case 'without':
      return takeOut(draft, change.module, before);
    case 'stops-off':
      return stopsOff(draft, change.module);
  }
}

/** Said of a change after which something that was counted no longer backs a figure. */
const AT_ITS_WORD = ' (taken at its word: it was not counted)';

/** Whether counts went with the figures that a change has set. */
function backedLess(
  { kind, ...change }: Change,
  before: Reading['scenario'],
  after: Reading['scenario'],
): boolean {
  if (kind !== 'set' || !('path' in change) || /^(modules|spares)\.[^.]+\.counted\b/.test(change.path))
    return false;
  return after !== undefined && JSON.stringify(before?.counted) !== JSON.stringify(after.counted);
}

/** The key that is told of: of a time that is made up of parts, all of it. */
function toldOf(path: string): string {
  return /^(?:modules|spares)\.[^.]+\.(?:cycle|travel)(?=\.)/.exec(path)?.[0] ?? path;
}
