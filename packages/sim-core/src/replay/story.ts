import type { LoopSpec } from '../model/spec/index.js';
import { entryWords } from './entryWords.js';
import type { LogEntry } from './logEntry.js';
import { momentLabel } from './momentLabel.js';
import { PlaceNames } from './placeNames.js';
import { stopSpans } from './stopSpans.js';
import { isWithin, type TimeWindow } from './timeWindow.js';

/** One line of the story of a window. */
export interface StoryLine {
  /** Public seconds. */
  readonly time: number;
  /** The same by the clock. */
  readonly clock: string;
  readonly text: string;
}

/** Balls that fall at one place within so many seconds of each other are told in one line. */
const ONE_BOUT = 600;

/**
 * What happened in a window, line by line in plain words. Balls that spill or leak at one place again and again are told
 * together until something else happens there. What was stopped already at the beginning comes first, what is still stopped
 * at the end last.
 *
 * @example
 * storyOf([{ time: 70, kind: 'stops', module: 1, cause: 'jam' }], { from: 0, to: 3600 }, exampleLoop)[0]
 * // => { time: 70, clock: '0:01:10', text: 'slow stops (jam)' }
 */
export function storyOf(log: readonly LogEntry[], window: TimeWindow, spec: LoopSpec): StoryLine[] {
  const { show } = spec;
  const names = new PlaceNames(spec);
  const lines: StoryLine[] = [];
  const tell = (time: number, text: string): void =>
    void lines.push({ time, clock: momentLabel(show, time), text });
  const bouts = new Bouts();
  for (const [i, entry] of log.entries()) {
    const { kind, module, time } = entry;
    const inside = isWithin(window, time, show);
    if (inside && (kind === 'spills' || kind === 'leaks')) {
      const begun = bouts.goOn(entry);
      if (begun === undefined) {
        bouts.begin(entry, lines.length);
        tell(time, entryWords(entry, names));
      } else {
        const until = ` until ${momentLabel(show, time).replace(/^day \d+ /, '')}`;
        const line = lines[begun.line];
        if (line)
          lines[begun.line] = {
            ...line,
            text: entryWords({ ...entry, balls: begun.balls }, names) + (time > begun.from ? until : ''),
          };
      }
    } else {
      bouts.end(module);
      if (inside && isWorthALine(log, i)) tell(time, entryWords(entry, names));
    }
    names.follow(entry);
  }
  return [...before(log, window, spec), ...lines, ...after(log, window, spec)];
}

/** False for what the line before or after says already. */
function isWorthALine(log: readonly LogEntry[], i: number): boolean {
  const entry = log[i];
  // A sweep that finds nothing is told by the minder who sets out for it.
  if (entry?.kind === 'swept' && entry.balls === 0) return false;
  return !(entry?.kind === 'noticed' && isTakenUp(log, i));
}

/** True when a minder sets out at the moment the stop is noticed; then that says it all. */
function isTakenUp(log: readonly LogEntry[], i: number): boolean {
  const noticed = log[i];
  for (let next = i + 1; log[next]?.time === noticed?.time && next < log.length; next++) {
    if (log[next]?.kind === 'sets_out' && log[next]?.module === noticed?.module) return true;
  }
  return false;
}

/** Balls that fall at one place again and again. */
interface Bout {
  /** Index of its line in the story. */
  readonly line: number;
  readonly from: number;
  last: number;
  balls: number;
}

class Bouts {
  private readonly bouts = new Map<string, Bout>();

  begin({ kind, module, time, balls = 0 }: LogEntry, line: number): void {
    this.bouts.set(`${kind} ${module}`, { line, from: time, last: time, balls });
  }

  /** Adds to the bout of this kind and place; undefined when there is none, or the last ball fell too long ago. */
  goOn({ kind, module, time, balls = 0 }: LogEntry): Bout | undefined {
    const bout = this.bouts.get(`${kind} ${module}`);
    if (bout === undefined || time - bout.last > ONE_BOUT) return undefined;
    bout.last = time;
    bout.balls += balls;
    return bout;
  }

  end(module: number): void {
    this.bouts.delete(`spills ${module}`);
    this.bouts.delete(`leaks ${module}`);
  }
}

function before(log: readonly LogEntry[], { from }: TimeWindow, { modules, show }: LoopSpec): StoryLine[] {
  const clock = momentLabel(show, from);
  return stopSpans(log, show.seconds)
    .filter((span) => span.from < from && span.to > from)
    .map((span) => ({
      time: from,
      clock,
      text: `${modules[span.module]?.id} has been stopped since ${momentLabel(show, span.from)}`,
    }));
}

function after(log: readonly LogEntry[], { from, to }: TimeWindow, { modules, show }: LoopSpec): StoryLine[] {
  const clock = momentLabel(show, to);
  return stopSpans(log, show.seconds)
    .filter((span) => span.from < to && (span.to > to || span.open) && span.to > from)
    .map((span) => ({
      time: to,
      clock,
      text: `${modules[span.module]?.id} is still stopped${span.open ? '' : ` (until ${momentLabel(show, span.to)})`}`,
    }));
}
