import type { ChartSpec } from '../charts/index.js';
import type { TableData } from './html.js';

/** A picture of the report with its words. */
export interface Figure {
  readonly id: string;
  readonly title: string;
  readonly caption: string;
  /** Absent when there is nothing to draw; the caption says so. */
  readonly spec?: ChartSpec;
  /** Tables below the picture. */
  readonly tables?: readonly TableData[];
}

/** Most modules in a chart that shows the worst ones. */
export const MOST = 20;
