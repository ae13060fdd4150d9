import type { DistributionSpec } from '../../distributions/index.js';
import type { ModuleSpec } from '../../model/spec/index.js';
import type { Found } from '../found.js';
import { isNothing } from './nothing.js';

/** What may stand at the place before and lift balls onto the run-out. */
interface Lifter {
  readonly what: string;
  readonly balls: number;
  readonly travel: DistributionSpec;
}

/**
 * Reports baskets that back up in such a way that a batch could never be let go.
 *
 * @param places the loop in order, each with where its `when_full` stands; undefined what cannot be used (reported)
 * @param spares what the indexes of pull rules mean
 * @param closed whether the last hands on to the first; the feed of a chain is never held up
 */
export function checkBackUps(
  places: readonly { readonly module: ModuleSpec | undefined; readonly whenFullAt: () => Found }[],
  spares: readonly (ModuleSpec | undefined)[],
  closed: boolean,
): void {
  for (const [m, { module, whenFullAt }] of places.entries()) {
    const before = (m > 0 ? places[m - 1] : closed ? places.at(-1) : undefined)?.module;
    const whenFull = module?.basket.whenFull;
    if (module === undefined || before === undefined || whenFull?.kind !== 'back_up') continue;
    const room = leastRoom(module, spares);
    const needs = ({ balls, travel }: Lifter): number => (isNothing(travel) ? balls - room : balls);
    // One problem for each basket: what needs most.
    const most = liftersOf(before, spares).reduce((a, b) => (needs(b) > needs(a) ? b : a));
    if (needs(most) > whenFull.holds) {
      whenFullAt().report(
        'contradiction',
        statement(most, whenFull.holds, room, module.id),
        `Write holds: ${needs(most)} or more.`,
      );
    }
  }
}

function statement({ what, balls, travel }: Lifter, holds: number, room: number, to: string): string {
  const lifts = `${what} lifts ${balls === 1 ? '1 ball' : `up to ${balls} balls`} at once`;
  if (isNothing(travel))
    return `${lifts}, but the run-out and the basket of ${to} can be relied on to take ${holds + room} only: it could never let go`;
  return holds === 0
    ? `the run-out to ${to} holds no ball, but balls take time on it: ${what} could never let go`
    : `${lifts}, but the run-out to ${to} holds ${holds}: it could never let go`;
}

function liftersOf(module: ModuleSpec, spares: readonly (ModuleSpec | undefined)[]): [Lifter, ...Lifter[]] {
  const { id, pull } = module;
  return [
    { what: id, balls: module.batch, travel: module.travel },
    ...standIns(module, spares).map((spare) => ({
      what: `the spare ${spare.id} in place of ${id}`,
      balls: spare.batch,
      travel: spare.travel,
    })),
    ...(pull?.chute ? [{ what: `the plain chute in place of ${id}`, balls: 1, travel: pull.chute }] : []),
  ];
}

/**
 * Balls for which there is room sooner or later, whatever stands there: a drive on demand may wait with one ball less
 * than it starts at; without a basket the mechanism itself takes a batch.
 */
function leastRoom(module: ModuleSpec, spares: readonly (ModuleSpec | undefined)[]): number {
  const { basket, pull } = module;
  const rooms = [module, ...standIns(module, spares)].map(({ basket: { capacity }, batch, drive }) =>
    capacity === 0 ? batch : capacity - (drive.kind === 'demand' ? drive.startAt : 1) + 1,
  );
  return Math.min(...rooms, ...(pull?.chute ? [Math.max(1, basket.capacity)] : []));
}

function standIns({ pull }: ModuleSpec, spares: readonly (ModuleSpec | undefined)[]): ModuleSpec[] {
  return (pull?.spares ?? []).flatMap((s) => spares[s] ?? []);
}
