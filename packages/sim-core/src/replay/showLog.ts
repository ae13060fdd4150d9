import { type LoopView, PLAIN_CHUTE, simulate } from '../model/index.js';
import { type LoopSpec, sessionsOf } from '../model/spec/index.js';
import type { Scenario } from '../scenario/index.js';
import { clockSecondsAt } from '../units/index.js';
import { MarkedBall } from './markedBall.js';
import { personLog, type PersonRow } from './personLog.js';
import { PlaceNames } from './placeNames.js';

/** How the log of a show is made. */
export interface ShowLogOptions {
  /** Whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Number of the replication, from 0. @default 0 */
  readonly replication?: number;
  /** Seconds between two readings of the ball counter. @default 1800 */
  readonly readings?: number;
  /** Decimals of the seconds of all times, 0 to 3. @default 0 */
  readonly decimals?: number;
  /** Whether it is written down at each stop how full the basket stood. @default false */
  readonly levels?: boolean;
}

const DAY = 86400;
const MODULE_WORDS: Readonly<Partial<Record<string, string>>> = {
  stops: 'stop',
  cleared: 'cleared',
  freed_itself: 'cleared',
  spills: 'spill',
};

/**
 * The log that attentive people would keep of a show, written by the simulator: stops, pulled modules, spills, changes of
 * duty, readings of the counter and the laps of one marked ball. A lap in which that ball fell is not written down.
 *
 * @throws ParameterError, LimitError as `simulate` does
 * @example
 * showLog(exampleScenario, { seed: 1 }).split('\r\n').slice(0, 5) // => ['# log: show', '# modules: quick, slow', '# times: elapsed', 'time,module,what,cause,count,lasted', '0:00:00,,start,,,']
 */
export function showLog(scenario: Scenario, options: ShowLogOptions): string {
  const { seed, replication = 0, readings = 1800, levels = false } = options;
  // What is written down begins with the opening.
  const spec: LoopSpec = { ...scenario.spec, show: { ...scenario.spec.show, warmUpSeconds: 0 } };
  const writer = new Writer(spec, options);
  const ball = new MarkedBall(spec.counter);
  const names = new PlaceNames(spec);
  let reading = readings;
  let passes = 0;
  const stopped: { readonly row: number; readonly place: number }[] = [];
  simulate(spec, {
    seed,
    replication,
    log: (incident) => {
      const { time, kind, module, cause, balls, what } = incident;
      const standIn = names.standIn(module);
      const word = MODULE_WORDS[kind];
      if (kind === 'spills' && standIn === PLAIN_CHUTE) {
        writer.add(time, {
          what: 'note',
          note: `${balls ?? 0} balls fell at the chute in place of ${names.module(module)}`,
        });
      } else if (word !== undefined) {
        const count = word === 'cleared' || (word === 'stop' && balls === 0) ? undefined : balls;
        writer.add(time, {
          module: standIn ?? names.module(module),
          what: word,
          ...(word === 'stop' && cause !== undefined && { cause }),
          ...(count !== undefined && { count }),
        });
        if (kind === 'stops') stopped.push({ row: writer.rows.length - 1, place: module });
      } else if (kind === 'pulled' || kind === 'put_back') {
        const own = names.module(module);
        const spare = what === PLAIN_CHUTE ? undefined : what;
        const [goes, comes] = kind === 'pulled' ? [own, spare] : [spare, own];
        if (goes !== undefined) writer.add(time, { module: goes, what: 'pulled' });
        if (comes !== undefined) writer.add(time, { module: comes, what: 'back' });
      } else if (kind === 'duty') {
        writer.add(time, { what: 'shift', count: Number(what) });
      }
      if (
        kind === 'stops' ||
        kind === 'spills' ||
        kind === 'leaks' ||
        kind === 'pulled' ||
        kind === 'put_back'
      )
        ball.mayHaveFallen = true;
      names.follow(incident);
    },
    observe: (view) => {
      for (; reading < view.now; reading += readings) writer.add(reading, { what: 'counter', count: passes });
      if (levels) for (const { row, place } of stopped) writer.setLevel(row, levelOf(view, place, spec));
      stopped.length = 0;
      const lap = ball.follow(view, view.passes - passes);
      passes = view.passes;
      if (lap !== undefined) writer.add(view.now, { what: 'lap', lasted: writer.seconds(lap) });
    },
  });
  for (; reading < spec.show.seconds; reading += readings)
    writer.add(reading, { what: 'counter', count: passes });
  writer.end(passes);
  return personLog(
    {
      log: 'show',
      modules: spec.modules.map(({ id }) => id).join(', '),
      spares: (spec.spares ?? []).map(({ id }) => id).join(', '),
      times: spec.show.opensAtSeconds === undefined ? 'elapsed' : 'clock',
    },
    writer.rows,
  );
}

/** Share of the basket, in tenths of a per cent; nothing for one that has no end. */
function levelOf(view: LoopView, place: number, { modules, spares = [] }: LoopSpec): string | undefined {
  const capacity =
    [...modules, ...spares].find(({ id }) => id === view.inPlace(place))?.basket.capacity ?? Infinity;
  return capacity === Infinity || capacity === 0
    ? undefined
    : `${Math.round((1000 * view.level(place)) / capacity) / 10} %`;
}

/** Writes rows by the clock on the wall, and when the public comes and goes. */
class Writer {
  readonly rows: PersonRow[] = [];
  private session = 0;
  private readonly sessions: ReturnType<typeof sessionsOf>;

  constructor(
    private readonly spec: LoopSpec,
    private readonly options: ShowLogOptions,
  ) {
    this.sessions = sessionsOf(spec.show);
    this.put(0, { what: 'start' }, false);
  }

  /** Adds a row at a public time. */
  add(time: number, row: Omit<PersonRow, 'time'>): void {
    for (;;) {
      const next = this.sessions[this.session + 1];
      if (next === undefined || time < next.fromSeconds) break;
      const overnight = this.dayAt(next.fromSeconds, true) !== this.dayAt(next.fromSeconds, false);
      this.put(next.fromSeconds, { what: overnight ? 'end' : 'break' }, true);
      this.put(next.fromSeconds, { what: overnight ? 'start' : 'resume' }, false);
      this.session++;
    }
    this.put(time, row, false);
  }

  setLevel(row: number, level: string | undefined): void {
    const found = this.rows[row];
    if (found !== undefined && level !== undefined) this.rows[row] = { ...found, level };
  }

  end(passes: number): void {
    this.put(this.spec.show.seconds, { what: 'counter', count: passes }, true);
    this.put(this.spec.show.seconds, { what: 'end' }, true);
  }

  /** How long something lasted, as precise as the times. */
  seconds(value: number): number {
    const { decimals = 0 } = this.options;
    return Number(value.toFixed(decimals));
  }

  private put(time: number, row: Omit<PersonRow, 'time'>, end: boolean): void {
    const clock = this.clockAt(time, end);
    const days = this.dayAt(this.spec.show.seconds, true) > 0;
    const day = Math.floor(clock / DAY);
    this.rows.push({
      time: this.label(days ? clock - day * DAY : clock),
      ...(days && { day: day + 1 }),
      ...row,
    });
  }

  /** By the clock on the wall, seconds after the midnight before the first opening, rounded as times are written. */
  private clockAt(time: number, end: boolean): number {
    const { show } = this.spec;
    return this.seconds((show.opensAtSeconds ?? 0) + clockSecondsAt(show, time, { end }));
  }

  private dayAt(time: number, end: boolean): number {
    return this.spec.show.opensAtSeconds === undefined ? 0 : Math.floor(this.clockAt(time, end) / DAY);
  }

  private label(seconds: number): string {
    const { decimals = 0 } = this.options;
    const two = (value: number): string => String(value).padStart(2, '0');
    const whole = Math.floor(seconds + 1e-9);
    const rest = Math.round((seconds - whole) * 10 ** decimals);
    const fraction = decimals === 0 ? '' : `.${String(rest).padStart(decimals, '0')}`;
    return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}${fraction}`;
  }
}
