import { CYCLE_END, DELIVERY } from '../model/eventClass.js';
import type { LoopView } from '../model/loopView.js';
import type { LoopSpec } from '../model/spec/index.js';
import type { Episode, PlaceState } from './episode.js';
import { GrainMerger } from './grainMerger.js';
import type { TimeWindow } from './timeWindow.js';

/** Grains of a window: about as many as a picture has pixels across. */
const GRAINS = 900;
/** More stops of one place in a window than this would lie on top of each other in a picture. */
const MOST_STOPS = GRAINS / 2;

/** Records what can be seen at every place of the loop, as episodes that a picture of the window can show. */
export class EpisodeRecorder {
  private readonly spec: LoopSpec;
  private readonly window: TimeWindow;
  private readonly mergers: readonly GrainMerger[];
  private readonly neighbours: readonly (readonly number[])[];
  private readonly state: PlaceState[];
  private readonly since: Float64Array;
  private started = false;

  constructor(spec: LoopSpec, window: TimeWindow) {
    const { modules } = spec;
    const grain = (window.to - window.from) / GRAINS;
    this.spec = spec;
    this.window = window;
    this.mergers = modules.map((_, m) => new GrainMerger(m, window, grain));
    this.neighbours = modules.map((_, m) => neighboursOf(spec, m));
    this.state = modules.map(() => 'starved');
    this.since = new Float64Array(modules.length);
  }

  /**
   * Looks at the table after an event; call it after each.
   *
   * At the end of a cycle and at a delivery only a place next to one that changed can change too, so not all of them are
   * looked at.
   */
  observe(view: LoopView): void {
    const { eventClass, module } = view;
    if (this.started && module >= 0 && (eventClass === CYCLE_END || eventClass === DELIVERY)) {
      this.look(view, module);
      this.lookAround(view, module);
      return;
    }
    for (let m = 0; m < view.modules; m++) this.look(view, m);
    this.started = true;
  }

  /** The episodes of all places, those of one place together. */
  finish(): Episode[] {
    return this.mergers.flatMap((merger, m) => {
      this.close(m, this.window.to);
      const episodes = merger.finish();
      if (episodes.filter(({ state }) => state === 'stopped').length <= MOST_STOPS) return episodes;
      return coarser(episodes, m, this.window);
    });
  }

  private lookAround(view: LoopView, m: number): void {
    for (const next of this.neighbours[m] ?? []) {
      if (this.look(view, next)) this.lookAround(view, next);
    }
  }

  /** True when another thing can be seen there than before. */
  private look(view: LoopView, m: number): boolean {
    const doing = view.doing(m);
    const away = doing !== 'stopped' && view.inPlace(m) !== this.spec.modules[m]?.id;
    const state = away ? 'pulled' : doing;
    if (state === this.state[m]) return false;
    // What is seen first has been there from the opening on.
    if (this.started) this.close(m, view.now);
    this.state[m] = state;
    return true;
  }

  private close(m: number, now: number): void {
    this.mergers[m]?.add(this.state[m] ?? 'starved', this.since[m] ?? 0, now);
    this.since[m] = now;
  }
}

/** Places where something may change in the same event: before and behind, and where the overflow goes. */
function neighboursOf({ modules }: LoopSpec, m: number): number[] {
  const n = modules.length;
  const full = modules[m]?.basket.whenFull;
  const around = [(m + n - 1) % n, (m + 1) % n, ...(full?.kind === 'return' ? [full.to] : [])];
  return [...new Set(around)].filter((place) => place !== m);
}

/** Episodes in which stops that are as short as grains count like everything else. */
function coarser(episodes: readonly Episode[], m: number, window: TimeWindow): readonly Episode[] {
  const grain = (window.to - window.from) / GRAINS;
  const merger = new GrainMerger(m, window, grain, ['stopped']);
  for (const { state, from, to } of episodes) merger.add(state, from, to);
  return merger.finish();
}
