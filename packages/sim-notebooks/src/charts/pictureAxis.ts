import { KINDS, type KindName } from '@lapwright/sim-core';
import type { ChartSpec } from './chartSpec.js';

/** How the numbers of a kind of figure stand on an axis: what they are divided by, the unit, the format of the ticks. */
export interface PictureAxis {
  readonly divide: number;
  readonly unit: string;
  readonly format: ChartSpec;
}

/** The axis for a kind of figure whose values reach up to `most`, from `least` on where it does not begin at zero. */
export function pictureAxis(kind: KindName, most: number, least = 0): PictureAxis {
  const found = KINDS[kind];
  if (found === 'time') {
    return most >= 120
      ? { divide: 60, unit: 'minutes', format: {} }
      : { divide: 1, unit: 'seconds', format: {} };
  }
  if ('scale' in found) {
    // Six ticks or so, none written like the next.
    const range = most - least;
    return { divide: 1, unit: '', format: { format: range > 0.1 ? '.0%' : range > 0.01 ? '.1%' : '.2%' } };
  }
  return { divide: 1, unit: found.unit, format: {} };
}

/** A title with its unit. */
export function titled(title: string, unit: string): string {
  return unit === '' ? title : `${title}, ${unit}`;
}
