import type {
  ChargeSpec,
  CrewSpec,
  FeedSpec,
  ModuleSpec,
  SweepSpec,
  TopUpSpec,
} from '../../model/spec/index.js';
import type { CrewRead } from '../form/crewForm.js';
import type { Found } from '../found.js';
import { shiftParts } from './moments.js';
import type { Names } from './names.js';
import { isNothing, NOTHING } from './nothing.js';
import type { ShowTimes } from './toShow.js';

/** Makes the crew; nobody when the file says nothing of one. */
export function toCrew(
  read: CrewRead | undefined,
  root: Found,
  modules: readonly ModuleSpec[],
  positions: Names<number>,
  show: ShowTimes,
  supply: ChargeSpec | FeedSpec | undefined,
): CrewSpec | undefined {
  if (read === undefined) {
    const needing = modules.flatMap((module) => {
      const when = needsMinder(module);
      return when === undefined ? [] : [{ id: module.id, when }];
    })[0];
    if (needing) {
      return root.report(
        'missing_key',
        `module ${needing.id} needs a minder ${needing.when}, but there is no crew section`,
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
  const topUp = read.top_up && toTopUp(read.top_up, positions, supply);
  if (!duty || (read.sweep && !sweep) || (read.top_up && !topUp)) return undefined;
  return { duty, rule: read.rule ?? 'first_come', ...(sweep && { sweep }), ...(topUp && { topUp }) };
}

/** What a module needs a minder for, in words; undefined when it needs none. */
function needsMinder({ stops, pull, lever }: ModuleSpec): string | undefined {
  if (stops.some(({ remedy }) => remedy.kind === 'crew')) return 'when it stops';
  if (pull) return 'to be pulled';
  return lever && !isNothing(lever.takes) ? 'to set its lever' : undefined;
}

type Shifts = NonNullable<NonNullable<CrewRead>['shifts']>;

/** Adds shifts up to the number on duty from each time on. */
function dutyOf(shifts: Shifts, show: ShowTimes): CrewSpec['duty'] | undefined {
  const changes = new Map<number, number>([[0, 0]]);
  let ok = true;
  for (const { from, to, minders, found } of shifts) {
    const parts = from && to && shiftParts(from, to, found, show);
    if (parts === undefined || minders === undefined) {
      ok = false;
      continue;
    }
    for (const { start, end } of parts) {
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
    takes: read.takes ?? NOTHING,
    lost: read.lost ?? 0,
  };
}

type TopUpRead = NonNullable<NonNullable<CrewRead>['top_up']>;

function toTopUp(
  read: TopUpRead,
  positions: Names<number>,
  supply: ChargeSpec | FeedSpec | undefined,
): TopUpSpec | undefined {
  const { below, up_to: upTo, box, found } = read;
  const into = read.into && positions.resolve(read.into);
  const wrong = (statement: string, hint: string): undefined =>
    found.report('contradiction', statement, hint);
  if (supply?.kind === 'feed') {
    return wrong(
      'balls are put into a loop, but this is an open chain with a feed',
      'Leave top_up out, or write charge: instead of feed:.',
    );
  }
  if (below !== undefined && upTo !== undefined && below > upTo) {
    return wrong(
      `it is asked for below ${below} balls, but brings the path up to ${upTo} only`,
      'Let up_to be at least below.',
    );
  }
  const charge = supply?.placed.reduce((sum, balls) => sum + balls, 0);
  if (charge !== undefined && upTo !== undefined && box !== undefined && upTo > charge + box) {
    return wrong(
      `the path is to have up to ${upTo} balls, but there are ${charge} in the loop and ${box} in the box`,
      `Write up_to: ${charge + box} at most, or put more into the box.`,
    );
  }
  if (into === undefined || below === undefined || upTo === undefined || box === undefined) return undefined;
  return { below, upTo, box, into, takes: read.takes ?? NOTHING };
}
