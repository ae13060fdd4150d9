import type { CauseCounted, ModuleCounted } from '../../model/spec/index.js';
import type { CauseCountedRead, CountedRead } from '../form/countedForm.js';
import type { ModuleRead } from '../form/moduleForm.js';
import type { StopRead } from '../form/stopForm.js';
import type { Found } from '../found.js';
import { Names } from './names.js';

/** In what stops of each trigger are counted. */
const COUNTED_IN = { per_cycle: 'cycles', per_ball: 'balls', running: 'in', clock: 'in' } as const;

const EXAMPLE = { cycles: 'cycles: 1220', balls: 'balls: 3600', in: 'in: 55 min' } as const;

/** What the figures of a module were counted from; undefined when something in it makes no sense (reported). */
export function toCounted(id: string, read: CountedRead, said: ModuleRead): ModuleCounted | undefined {
  const causes = new Names(
    'cause of stopping',
    (said.stops ?? []).map(({ name, value }) => [name, value]),
  );
  const stops = (read.stops ?? []).map(({ name, at, value }) => {
    const cause = causes.lookUp(name, at);
    return cause && toCause(name, at, value, cause);
  });
  const caught = toShare(read.caught, 'caught', 'reached for');
  const leaked = toShare(read.leaked, 'leaked', 'let go');
  const wrong = stops.includes(undefined) || (read.caught && !caught) || (read.leaked && !leaked);
  if (wrong === true) return undefined;
  return {
    module: id,
    ...(read.cycles !== undefined && { cycles: read.cycles }),
    ...(caught && { caught }),
    ...(leaked && { leaked }),
    stops: stops.flatMap((cause) => cause ?? []),
  };
}

function toShare(
  read: CountedRead['caught'],
  what: string,
  where: string,
): { readonly of: number; readonly balls: number } | undefined {
  if (read?.of === undefined || read.balls === undefined) return undefined;
  const { of, balls, found } = read;
  if (balls <= of) return { of, balls };
  return found.report('contradiction', `${balls} balls ${what}, but only ${of} ${where}`);
}

function toCause(
  name: string,
  at: Found,
  read: CauseCountedRead,
  cause: NonNullable<StopRead>,
): CauseCounted | undefined {
  const trigger = (Object.keys(COUNTED_IN) as (keyof typeof COUNTED_IN)[]).find(
    (one) => cause[one] !== undefined,
  );
  if (trigger === undefined) {
    // A trigger that is missing or wrong has been reported already.
    if (cause.at === undefined) return undefined;
    return at.report(
      'contradiction',
      'planned stops are no chance, so there is nothing to count',
      'Take it out.',
    );
  }
  if (read.crowded && !cause.crowded) {
    read.crowded.found.report(
      'contradiction',
      `${name} stops no more often while the basket is crowded`,
      'Say so at the cause too, crowded: { above: 70 %, times: 3 }, or count all stops together.',
    );
  }
  const own = toRate(read, trigger);
  const crowded = read.crowded && toRate(read.crowded, trigger);
  const prior = read.prior && toRate(read.prior, trigger);
  if (!own || (read.crowded && !(crowded && cause.crowded)) || (read.prior && !prior)) return undefined;
  return {
    cause: name,
    ...own,
    ...(crowded && { crowded }),
    ...(prior && { prior }),
    clears: read.clears ?? 0,
  };
}

/** So many stops over so much, in the unit in which the trigger counts. */
function toRate(
  read: Pick<CauseCountedRead, 'stops' | 'in' | 'cycles' | 'balls' | 'found'>,
  trigger: keyof typeof COUNTED_IN,
): { readonly stops: number; readonly over: number } | undefined {
  const unit = COUNTED_IN[trigger];
  const given = (['in', 'cycles', 'balls'] as const).filter((one) => read.found.child(one) !== undefined);
  // None or several have been reported already.
  if (given.length !== 1) return undefined;
  if (given[0] !== unit) {
    return read.found.report(
      'contradiction',
      `the trigger of this cause is ${trigger}, but its stops are counted ${given[0] === 'in' ? 'in a time' : `over ${given[0]}`}`,
      `Write ${EXAMPLE[unit]}, or change the trigger.`,
    );
  }
  const { stops } = read;
  const over = read[unit];
  if (stops === undefined || over === undefined) return undefined;
  if (unit !== 'in' && stops > over)
    return read.found.report(
      'contradiction',
      `${stops} stops in ${over} ${unit} cannot be: at most one in each`,
    );
  return { stops, over };
}
