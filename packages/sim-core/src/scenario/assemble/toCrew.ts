import type { CrewSpec, ModuleSpec, SweepSpec } from '../../model/spec/index.js';
import type { CrewRead } from '../form/crewForm.js';
import { formatSeconds } from '../../units/index.js';
import type { Found } from '../found.js';
import type { Names } from './names.js';
import { secondsAfterOpening, type ShowTimes } from './toShow.js';

/** Makes the crew; nobody when the file says nothing of one. */
export function toCrew(
  read: CrewRead | undefined,
  root: Found,
  modules: readonly ModuleSpec[],
  positions: Names<number>,
  show: ShowTimes,
): CrewSpec | undefined {
  if (read === undefined) {
    const needing = modules.find(({ stops }) => stops.some(({ remedy }) => remedy.kind === 'crew'));
    if (needing) {
      return root.report(
        'missing_key',
        `module ${needing.id} needs a minder when it stops, but there is no crew section`,
        'Write crew: { minders: 3 }, or minders: 0 if nobody is there.',
      );
    }
    return { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' };
  }
  const duty = read.shifts
    ? dutyOf(read.shifts, show)
    : read.minders === undefined
      ? undefined
      : [{ fromSeconds: 0, minders: read.minders }];
  const sweep = read.sweep && toSweep(read.sweep, positions);
  if (!duty || (read.sweep && !sweep)) return undefined;
  return { duty, rule: read.rule ?? 'first_come', ...(sweep && { sweep }) };
}

type Shifts = NonNullable<NonNullable<CrewRead>['shifts']>;

/** Adds shifts up to the number on duty from each time on. */
function dutyOf(shifts: Shifts, show: ShowTimes): CrewSpec['duty'] | undefined {
  const changes = new Map<number, number>([[0, 0]]);
  let ok = true;
  for (const { from, to, minders, found } of shifts) {
    const start = from && secondsAfterOpening(from, show);
    const end = to && secondsAfterOpening(to, show);
    if (start === undefined || end === undefined || minders === undefined) {
      ok = false;
    } else if (end <= start) {
      found.report(
        'contradiction',
        `this shift ends (${formatSeconds(end)} after the opening) before it begins (${formatSeconds(start)})`,
      );
      ok = false;
    } else {
      changes.set(start, (changes.get(start) ?? 0) + minders);
      changes.set(end, (changes.get(end) ?? 0) - minders);
    }
  }
  if (!ok) return undefined;
  let minders = 0;
  return [...changes]
    .toSorted(([a], [b]) => a - b)
    .map(([fromSeconds, change]) => {
      minders += change;
      return { fromSeconds, minders };
    });
}

function toSweep(
  read: NonNullable<NonNullable<CrewRead>['sweep']>,
  positions: Names<number>,
): SweepSpec | undefined {
  const into = read.into && positions.resolve(read.into);
  if (into === undefined || read.every === undefined) return undefined;
  return {
    everySeconds: read.every,
    into,
    takes: read.takes ?? { family: 'constant', value: 0 },
    lost: read.lost ?? 0,
  };
}
