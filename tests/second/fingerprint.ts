import type { LoopView } from '../../packages/sim-core/src/index.js';
import { onChutes, onRunOut } from './books.js';
import { isStopped, type Place, type Table } from './table.js';

/** What stands at a place, in words both sides can say. */
interface PlaceLook {
  readonly basket: number;
  readonly mechanism: number;
  readonly runOut: number;
  readonly chutes: number;
  readonly inPlace: string;
  readonly doing: string;
  readonly lever: boolean;
}

interface TableLook {
  readonly places: readonly PlaceLook[];
  readonly floor: number;
  readonly lost: number;
  readonly box: number;
  readonly entered: number;
  readonly left: number;
  /** Where the busy minders are: places, -1 for sweeping, -2 for topping up. */
  readonly busyAt: readonly number[];
  readonly jobs: number;
}

/** The whole table at one moment as a text. */
function fingerprint(look: TableLook): string {
  const places = look.places.map(
    (p) =>
      `${p.inPlace}${p.lever ? ' (lever set)' : ''} ${p.doing}: ${p.basket}, ${p.mechanism}, ${p.runOut}, ${p.chutes}`,
  );
  return [
    ...places,
    `floor ${look.floor}, lost ${look.lost}, box ${look.box}, in ${look.entered}, out ${look.left}`,
    `minders busy at ${look.busyAt.toSorted((a, b) => a - b).join(' ')}, jobs ${look.jobs}`,
  ].join(' | ');
}

function doing(place: Place): string {
  if (isStopped(place)) return 'stopped';
  if (place.doing === 'held up') return 'held_up';
  const starved = place.doing === 'waiting' || (place.doing === 'in a cycle' && place.hand.length === 0);
  return starved ? 'starved' : 'running';
}

export const fingerprintOfTable = (t: Table): string =>
  fingerprint({
    places: t.places.map((place) => ({
      basket: place.basket.length,
      mechanism: place.hand.length,
      runOut: onRunOut(place),
      chutes: onChutes(place),
      inPlace: place.machine.id,
      doing: doing(place),
      lever: place.leverSet,
    })),
    floor: t.floor.length,
    lost: t.lost,
    box: t.box,
    entered: t.entered,
    left: t.left,
    busyAt: t.crew.busy.map(({ kind, place }) => place?.at ?? (kind === 'sweep' ? -1 : -2)),
    jobs: t.crew.queue.length,
  });

/** @param minders the most that are ever on duty */
export const fingerprintOfView = (view: LoopView, minders: number): string =>
  fingerprint({
    places: Array.from({ length: view.modules }, (_, m) => ({
      basket: view.level(m),
      mechanism: view.held(m),
      runOut: view.onRunOut(m),
      chutes: view.onChutes(m),
      inPlace: view.inPlace(m),
      doing: view.doing(m),
      lever: view.leverSet(m),
    })),
    floor: view.floor,
    lost: view.lost,
    box: view.box,
    entered: view.entered,
    left: view.left,
    busyAt: Array.from({ length: minders }, (_, k) => view.minderAt(k + 1) ?? []).flat(),
    jobs: view.waitingJobs,
  });
