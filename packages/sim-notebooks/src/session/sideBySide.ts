import {
  type Estimate,
  estimatePhrase,
  type IntervalsPicture,
  intervalPhrase,
  type Kind,
  KINDS,
  type Measure,
  measureIndex,
  MEASURES,
  meanPhrase,
  pairedDifference,
} from '@lapwright/sim-core';
import { pictureChart } from '../charts/index.js';
import type { Figure, TableData } from '../report/index.js';
import { inText } from './inText.js';

/** One of the loops that stand side by side. */
export interface SideBySideRow {
  readonly label: string;
  /** The figure in each show, in the order of the shows; NaN where there was nothing to measure. */
  readonly values: readonly number[];
  readonly estimate: Estimate;
}

/** What was asked. */
interface Asked {
  readonly on: string;
  readonly seed: number;
}

/**
 * One figure of several loops that met the same luck. `show(it)` shows it.
 *
 * @example
 * const estimate = { mean: 2, low: 1, high: 3, confidence: 0.95, replications: 3 };
 * const [a, b] = [{ label: 'a', values: [1, 2, 3], estimate }, { label: 'b', values: [3, 4, 5], estimate }];
 * new SideBySide([a, b], { on: 'throughput_bps', seed: 1 }).ahead('b', 'a').mean // => 2
 */
export class SideBySide {
  /** In the order in which they were given. */
  readonly rows: readonly SideBySideRow[];
  /** The figure, as in results. */
  readonly on: string;
  readonly seed: number;
  /** Name of the one with the best mean; the first of equals. */
  readonly best: string;
  /** The pictures that `show` knows, with their captions. */
  readonly figures: readonly Figure[];
  private readonly measure: Measure;

  constructor(rows: readonly SideBySideRow[], { on, seed }: Asked) {
    this.rows = rows;
    this.on = on;
    this.seed = seed;
    this.measure = MEASURES[measureIndex(on)] as Measure;
    this.best = this.ranked()[0]?.label ?? '';
    this.figures = [this.figure(), this.differences()];
    inText(this, () => this.text());
  }

  /**
   * By how much one is better than another, show by show with the same luck: above 0 when it is better, in the unit of the
   * figure. All such intervals hold together 95 times in 100 (Bonferroni, over all pairs), so that the best may be picked
   * first and compared then.
   */
  ahead(one: string, other: string): Estimate {
    const [a, b] = [this.row(one).values, this.row(other).values];
    const sign = this.measure.better === 'more' ? 1 : -1;
    const signed = (values: readonly number[]): number[] => values.map((value) => sign * value);
    return pairedDifference(signed(b), signed(a), 1 - 0.05 / this.pairs()).difference;
  }

  /** The mean of one by its name, in the unit of the figure. */
  mean(label: string): number {
    return this.row(label).estimate.mean ?? NaN;
  }

  /** What it comes to, in two sentences. */
  text(): string {
    const [first, second] = this.ranked();
    const { title, kind } = this.measure;
    if (first === undefined || second === undefined) return '';
    const shows = `${first.values.length} shows of each, with the same luck`;
    const lead = this.ahead(first.label, second.label);
    const figure = `${title} ${phrase(first.estimate, KINDS[kind])}`;
    if (lead.mean === 0 && lead.low === 0)
      return `Best: ${first.label}, ${figure}; ${second.label} does exactly as well (${shows}).`;
    const sure = lead.low !== null && lead.low > 0 ? '' : '; that may be luck';
    return `Best: ${first.label}, ${figure}. It is ahead of the next, ${second.label}, by ${this.distance(lead)}${sure} (${shows}).`;
  }

  /** A difference with what its interval promises. */
  private distance(lead: Estimate): string {
    const kind = KINDS[this.measure.kind];
    if (exact(lead)) return `${meanPhrase(lead, kind)} in every show`;
    const pairs = this.pairs();
    const promise = pairs > 1 ? `intervals for all ${pairs} pairs hold together` : 'interval';
    return `${intervalPhrase(lead, kind)} (95 %: ${promise})`;
  }

  private pairs(): number {
    return (this.rows.length * (this.rows.length - 1)) / 2;
  }

  /** All of it as a table. */
  table(): TableData {
    const { title, kind } = this.measure;
    const head = ['', title, '95 % interval', `better than "${this.rows[0]?.label ?? ''}" by`];
    return {
      label: `${this.rows[0]?.values.length ?? 0} shows of each, with the same luck`,
      head,
      rows: this.rows.map(({ label, estimate }, i) => [
        label,
        meanPhrase(estimate, KINDS[kind]),
        exact(estimate) ? 'in every show' : intervalPhrase(estimate, KINDS[kind]),
        i === 0 ? '' : this.distanceCell(this.ahead(label, this.rows[0]?.label ?? '')),
      ]),
    };
  }

  private distanceCell(lead: Estimate): string {
    const kind = KINDS[this.measure.kind];
    return exact(lead) ? meanPhrase(lead, kind) : intervalPhrase(lead, kind);
  }

  private row(label: string): SideBySideRow {
    const found = this.rows.find((row) => row.label === label);
    if (found === undefined)
      throw new RangeError(
        `there is no ${JSON.stringify(label)} here, only ${this.rows.map((row) => row.label).join(', ')}`,
      );
    return found;
  }

  private ranked(): SideBySideRow[] {
    const sign = this.measure.better === 'more' ? -1 : 1;
    const at = ({ estimate }: SideBySideRow): number => sign * (estimate.mean ?? Infinity * sign);
    return this.rows.toSorted((a, b) => at(a) - at(b));
  }

  private figure(): Figure {
    const rows = this.rows.map(({ label, estimate }) => drawn(label, estimate, label === this.best));
    return this.intervals('side-by-side', 'Side by side', this.measure.title, this.text(), rows, []);
  }

  private differences(): Figure {
    const [first, ...others] = this.rows;
    const base = first?.label ?? '';
    const rows = others.map(({ label }) => drawn(label, this.ahead(label, base), label === this.best));
    const caption = `How much better each is than "${base}", show by show with the same luck; dots are means, bars their intervals, which hold together 95 times in 100. A bar that reaches across 0 may be luck.`;
    const axis = `better in ${this.measure.title} by`;
    const line = { value: 0, label: 'no better' };
    return this.intervals('differences', `Against "${base}"`, axis, caption, rows, [line]);
  }

  private intervals(
    id: string,
    title: string,
    axis: string,
    caption: string,
    rows: IntervalsPicture['rows'],
    lines: IntervalsPicture['lines'],
  ): Figure {
    const { kind } = this.measure;
    const spec = pictureChart({ shape: 'intervals', id, title, caption, axis, kind, rows, lines });
    return { id, title, caption, spec };
  }
}

function drawn(
  label: string,
  { mean, low, high }: Estimate,
  chosen: boolean,
): IntervalsPicture['rows'][number] {
  const dot = mean ?? 0;
  return { label, mean: dot, low: low ?? dot, high: high ?? dot, chosen };
}

/** Whether it came out the same in every show: without chance there is nothing an interval could say. */
function exact({ low, high }: Estimate): boolean {
  return low !== null && low === high;
}

function phrase(estimate: Estimate, kind: Kind): string {
  return exact(estimate) ? `${meanPhrase(estimate, kind)} in every show` : estimatePhrase(estimate, kind);
}
