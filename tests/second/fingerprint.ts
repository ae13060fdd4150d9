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
  readonly busy: number;
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
    `minders busy ${look.busy}, jobs ${look.jobs}`,
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
    busy: t.crew.busy.length,
    jobs: t.crew.queue.length,
  });

export const fingerprintOfView = (view: LoopView): string =>
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
    busy: view.busyMinders,
    jobs: view.waitingJobs,
  });
