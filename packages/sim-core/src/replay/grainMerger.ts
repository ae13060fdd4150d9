import type { Episode, PlaceState } from './episode.js';
import type { TimeWindow } from './timeWindow.js';

/** What flickers: a module goes without balls in one cycle and runs in the next. */
const FLICKERING: readonly PlaceState[] = ['running', 'starved', 'held_up'];

/**
 * Turns what could be seen at one place into episodes that a picture can show. The window is cut into grains; in each grain
 * what lasted longest stands for all of it. Stops and pulls are kept as they are, unless told otherwise.
 */
export class GrainMerger {
  private readonly module: number;
  private readonly window: TimeWindow;
  private readonly grain: number;
  private readonly episodes: Episode[] = [];
  private readonly flickering: readonly PlaceState[];
  /** How long each of what flickers has lasted since `start`. */
  private readonly seconds: number[];
  /** Beginning of what has not become an episode yet. */
  private start: number;

  /**
   * @param grain seconds
   * @param also what flickers too
   */
  constructor(module: number, window: TimeWindow, grain: number, also: readonly PlaceState[] = []) {
    this.flickering = [...FLICKERING, ...also];
    this.seconds = this.flickering.map(() => 0);
    this.module = module;
    this.window = window;
    this.grain = grain;
    this.start = window.from;
  }

  /** Takes in what could be seen from one moment to another; call it in the order of time, without gaps. */
  add(state: PlaceState, from: number, to: number): void {
    let begin = Math.max(from, this.window.from);
    const end = Math.min(to, this.window.to);
    if (begin >= end) return;
    const kind = this.flickering.indexOf(state);
    if (kind === -1) {
      this.decide(begin);
      this.append(state, begin, end);
      return;
    }
    while (begin < end) {
      const edge = Math.min(end, this.edge(this.grainAt(begin) + 1));
      this.seconds[kind] = (this.seconds[kind] ?? 0) + edge - begin;
      begin = edge;
      if (begin < end) {
        this.decide(begin);
        begin = this.skipWholeGrains(state, begin, end);
      }
    }
    if (this.edge(this.grainAt(end)) === end) this.decide(end);
  }

  /** Everything up to the end of the window. */
  finish(): readonly Episode[] {
    this.decide(this.window.to);
    return this.episodes;
  }

  /** Grains that one state fills need no counting. */
  private skipWholeGrains(state: PlaceState, begin: number, end: number): number {
    const last = this.edge(this.grainAt(end));
    if (last <= begin) return begin;
    this.append(state, begin, last);
    return last;
  }

  /** Makes an episode of what has lasted longest since the last one. */
  private decide(until: number): void {
    const most = Math.max(...this.seconds);
    const state = this.flickering[this.seconds.indexOf(most)];
    if (most > 0 && state !== undefined) this.append(state, this.start, until);
    this.seconds.fill(0);
    this.start = until;
  }

  private append(state: PlaceState, from: number, to: number): void {
    this.start = to;
    if (to <= from) return;
    const last = this.episodes.at(-1);
    if (last?.state === state && last.to === from) this.episodes[this.episodes.length - 1] = { ...last, to };
    else this.episodes.push({ module: this.module, state, from, to });
  }

  private edge(grain: number): number {
    return this.window.from + grain * this.grain;
  }

  /** Number of the grain that begins at or before a time; by comparing edges, because dividing may miss by a hair. */
  private grainAt(time: number): number {
    let grain = Math.floor((time - this.window.from) / this.grain);
    while (this.edge(grain) > time) grain--;
    while (this.edge(grain + 1) <= time) grain++;
    return grain;
  }
}
