import { type LoopSpec, simulate } from '../../packages/sim-core/src/index.js';
import type { Entry } from './agenda.js';
import { fingerprintOfTable, fingerprintOfView } from './fingerprint.js';
import { noLuck } from './luck.js';
import { playPlainly } from './plainLoop.js';
import type { Table } from './table.js';

/*
 * One show as a list of changes: what the table looked like, and from when on.
 */

/** How the table looks after something has changed: seconds, class of the event, position, and the look. */
export interface Change {
  readonly time: number;
  readonly rank: number;
  readonly position: number;
  readonly look: string;
}

/** Stands for the class of an event where there was none yet. */
const OPENING = -1;

type Note = (time: number, rank: number, position: number, look: string) => void;

/** Keeps what differs from the change before it. */
function changes(): { readonly list: Change[]; readonly note: Note } {
  const list: Change[] = [];
  return {
    list,
    note: (time, rank, position, look) => {
      if (list.at(-1)?.look !== look) list.push({ time, rank, position, look });
      if (list.length > 200_000) throw new Error(`the story never ends, at ${time} s`);
    },
  };
}

/** The story as the second simulation tells it, and its table at the end. */
export function plainStory(
  spec: LoopSpec,
  phases?: ReadonlyMap<string, number>,
  look?: (t: Table, event: Entry | undefined) => void,
): { readonly story: Change[]; readonly table: Table } {
  const { list, note } = changes();
  const table = playPlainly(spec, noLuck(phases), (t, event) => {
    note(t.now / 1e9, event?.rank ?? OPENING, event?.position ?? -1, fingerprintOfTable(t));
    look?.(t, event);
  });
  return { story: list, table };
}

/** The story as the simulator tells it, from the opening on as the other has seen it: it shows nothing before an event. */
export function coreStory(
  spec: LoopSpec,
  seed: number,
  opening: Change | undefined,
): { readonly story: Change[]; readonly result: ReturnType<typeof simulate> } {
  const { list, note } = changes();
  const minders = Math.max(...spec.crew.duty.map((shift) => shift.minders));
  if (opening) list.push(opening);
  const result = simulate(spec, {
    seed,
    audit: true,
    observe: (view) => note(view.now, view.eventClass, view.module, fingerprintOfView(view, minders)),
  });
  return { story: list, result };
}

/**
 * When each continuous module of a scenario has its first pick: the luck of a module goes with its id, so a chain of the
 * same modules without stops and without balls shows it.
 */
export function phasesOf(spec: LoopSpec, seed: number): ReadonlyMap<string, number> {
  const modules = spec.modules
    .filter(({ drive }) => drive.kind === 'continuous')
    .map(({ id, cycle, drive }) => ({
      id,
      cycle,
      drive,
      batch: 1,
      catch: 1,
      basket: { capacity: Infinity, order: 'fifo' as const, whenFull: { kind: 'spill' as const } },
      travel: { family: 'constant' as const, value: 1 },
      leak: 0,
      stops: [],
    }));
  const phases = new Map<string, number>();
  if (modules.length === 0) return phases;
  const nothing: LoopSpec = {
    name: 'first picks',
    modules,
    counter: 0,
    supply: { kind: 'feed', balls: 1, every: { family: 'constant', value: 1e6 }, first: 1e6 },
    crew: { duty: [{ fromSeconds: 0, minders: 0 }], rule: 'first_come' },
    show: { seconds: 60, warmUpSeconds: 0 },
  };
  simulate(nothing, {
    seed,
    observe: (view) => {
      const id = modules[view.module]?.id;
      if (id !== undefined && view.eventClass === 2 && !phases.has(id)) phases.set(id, view.now);
    },
  });
  return phases;
}
