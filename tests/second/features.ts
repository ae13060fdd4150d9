import type { SessionSpec } from '../../packages/sim-core/src/model/spec/index.js';
import { type Entry } from './agenda.js';
import { isStopped, type Place, type Table } from './table.js';

/** What is to be met in the scenarios, so that agreement means something. */
export const FEATURES = [
  'instants with several classes of events',
  'spills',
  'balls wait at the end of a run-out',
  'mechanisms held up',
  'held-up mechanisms stopped',
  'balls go straight into a mechanism without a basket',
  'balls returned over a chute',
  'locks',
  'stops that free themselves',
  'stops noticed',
  'causes that fall into another stop',
  'balls dropped',
  'wanted out',
  'nothing to go in',
  'spares put in',
  'plain chutes put in',
  'modules put back',
  'swaps of a place that runs',
  'put back asked for at an opening',
  'levers set',
  'levers set forward again',
  'balls sent back',
  'balls leaked',
  'sweeps with balls found',
  'balls lost',
  'top-ups',
  'jobs that wait',
  'more minders busy than on duty',
  'picks of a continuous drive',
] as const;

export type Feature = (typeof FEATURES)[number];

interface Before {
  readonly places: {
    inPlace: string;
    doing: Place['doing'];
    stopped: boolean;
    wanted: boolean;
    lever: boolean;
  }[];
  readonly floor: number;
  readonly box: number;
  readonly putBacks: number;
}

/** Counts how often each feature occurs in shows that it is shown. */
export class FeatureCount {
  readonly counts = new Map<Feature, number>(FEATURES.map((feature) => [feature, 0]));
  private before: Before | undefined;
  private last: Entry | undefined;

  /** To be called at the opening and after each event of a show. */
  readonly look = (t: Table, event: Entry | undefined): void => {
    const now: Before = {
      places: t.places.map((place) => ({
        inPlace: place.machine.id,
        doing: place.doing,
        stopped: isStopped(place),
        wanted: place.wantedOut,
        lever: place.leverSet,
      })),
      floor: t.floor.length,
      box: t.box,
      putBacks: t.crew.queue.concat(t.crew.busy).filter(({ kind }) => kind === 'put back').length,
    };
    const before = event && this.before;
    if (before) this.compare(t, event, before, now);
    this.before = now;
    this.last = event;
  };

  /** To be called at the end of a show. */
  readonly end = (t: Table): void => {
    const sum = (
      what:
        | 'spillsWhileStopped'
        | 'spillsOnBacklog'
        | 'spillsOnInflow'
        | 'returned'
        | 'sentBack'
        | 'leaks'
        | 'dropped',
    ): number => t.books.places.reduce((total, books) => total + books[what], 0);
    this.add('spills', sum('spillsWhileStopped') + sum('spillsOnBacklog') + sum('spillsOnInflow'));
    this.add('balls returned over a chute', sum('returned'));
    this.add('balls sent back', sum('sentBack'));
    this.add('balls leaked', sum('leaks'));
    this.add('balls dropped', sum('dropped'));
    this.add('balls lost', t.lost);
    this.add('locks', t.lockedAt === undefined ? 0 : 1);
  };

  private add(feature: Feature, times: number | boolean): void {
    this.counts.set(feature, (this.counts.get(feature) ?? 0) + Number(times));
  }

  private compare(t: Table, event: Entry, before: Before, now: Before): void {
    const { crew } = t;
    this.add(
      'instants with several classes of events',
      this.last?.time === event.time && this.last.rank !== event.rank,
    );
    this.add('jobs that wait', crew.queue.length > 0);
    this.add('more minders busy than on duty', crew.busy.length > crew.onDuty);
    this.add('top-ups', now.box < before.box);
    this.add('sweeps with balls found', event.rank === 6 && now.floor < before.floor);
    this.add('put back asked for at an opening', now.putBacks > before.putBacks && isOpening(t));
    for (const place of t.places) this.comparePlace(place, event, before, now);
  }

  private comparePlace(place: Place, event: Entry, before: Before, now: Before): void {
    const was = before.places[place.at];
    const is = now.places[place.at];
    if (!was || !is) return;
    const here = event.position === place.at;
    const { runOut, machine, stop } = place;
    this.add('balls wait at the end of a run-out', runOut.waiting.length > 0);
    this.add('mechanisms held up', is.doing === 'held up' && was.doing !== 'held up');
    this.add('held-up mechanisms stopped', is.doing === 'held up' && is.stopped && !was.stopped);
    this.add(
      'balls go straight into a mechanism without a basket',
      machine.basket.capacity === 0 &&
        is.doing === 'in a cycle' &&
        was.doing === 'waiting' &&
        was.inPlace === is.inPlace,
    );
    const began = is.stopped && !was.stopped && event.rank === 3 && here;
    this.add('stops that free themselves', began && stop?.cause.remedy.kind === 'itself');
    this.add('stops noticed', event.rank === 4 && here);
    this.add('causes that fall into another stop', event.rank === 3 && here && was.stopped);
    this.add('wanted out', is.wanted && !was.wanted);
    this.add(
      'nothing to go in',
      was.wanted && !is.wanted && place.newcomer === undefined && is.inPlace === was.inPlace,
    );
    this.add('spares put in', is.inPlace !== was.inPlace && machine !== place.home && !machine.isChute);
    this.add('plain chutes put in', is.inPlace !== was.inPlace && machine.isChute);
    this.add('modules put back', is.inPlace !== was.inPlace && machine === place.home);
    this.add(
      'swaps of a place that runs',
      place.newcomer !== undefined && stop === undefined && !was.stopped,
    );
    this.add('levers set', is.lever && !was.lever);
    this.add('levers set forward again', !is.lever && was.lever && is.inPlace === was.inPlace);
    this.add(
      'picks of a continuous drive',
      machine.drive.kind === 'continuous' && event.rank === 2 && here && place.hand.length > 0,
    );
  }
}

/** This instant is the opening of a session after the first. */
function isOpening(t: Table): boolean {
  const later: readonly SessionSpec[] = t.spec.show.sessions?.slice(1) ?? [];
  return later.some(({ fromSeconds }) => Math.round(fromSeconds * 1e9) === t.now);
}
