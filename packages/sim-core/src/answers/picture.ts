import type { KINDS } from '../findings/index.js';

/** Name of a kind of figure: how its numbers are written and what their unit is. */
export type KindName = keyof typeof KINDS;

/** A value that a picture marks with a line. */
export interface PictureLine {
  readonly value: number;
  readonly label: string;
}

interface PictureBase {
  /** Short name, unique in an answer. */
  readonly id: string;
  readonly title: string;
  /** What there is to see, in words written from the numbers; also the text alternative. */
  readonly caption: string;
}

/** A dot for a mean or a middle, a bar for its interval, on a line for each row. */
export interface IntervalsPicture extends PictureBase {
  readonly shape: 'intervals';
  readonly axis: string;
  readonly kind: KindName;
  readonly rows: readonly {
    readonly label: string;
    readonly mean: number;
    readonly low: number;
    readonly high: number;
    /** Stands out from the others. */
    readonly chosen: boolean;
  }[];
  readonly lines: readonly PictureLine[];
}

/** A line with its interval as a ribbon, over something that is varied or over time. */
export interface RibbonPicture extends PictureBase {
  readonly shape: 'ribbon';
  readonly axis: string;
  readonly kind: KindName;
  /** What runs from left to right; `time` is in seconds. */
  readonly across: { readonly title: string; readonly kind: 'plain' | 'time' };
  readonly rows: readonly {
    readonly x: number;
    readonly mean: number;
    readonly low: number;
    readonly high: number;
  }[];
  /** Marked levels of the figure. */
  readonly lines: readonly PictureLine[];
  /** A marked place from left to right; null when none. */
  readonly chosen: PictureLine | null;
}

/** Points in a field, and the diagonal on which both axes say the same. */
export interface PointsPicture extends PictureBase {
  readonly shape: 'points';
  readonly axis: string;
  readonly across: string;
  /** Of both axes. */
  readonly kind: KindName;
  readonly rows: readonly { readonly x: number; readonly y: number }[];
}

/** Two orders of the same things side by side, with a line from each place to the other. */
export interface OrdersPicture extends PictureBase {
  readonly shape: 'orders';
  readonly before: readonly string[];
  readonly after: readonly string[];
  /** Those that were moved on purpose; others only made room. */
  readonly moved: readonly string[];
}

/** A picture of an answer as data: what draws it decides how it looks. */
export type Picture = IntervalsPicture | RibbonPicture | PointsPicture | OrdersPicture;
