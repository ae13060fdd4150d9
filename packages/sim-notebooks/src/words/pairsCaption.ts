import { type Estimate, intervalPhrase, type Kind } from '@lapwright/sim-core';
import type { PairRow } from '../rows/index.js';

/**
 * The paired differences of two systems.
 *
 * @param title of the measure, such as "balls spilled"
 */
export function pairsCaption(
  rows: readonly PairRow[],
  { title, kind, difference }: { readonly title: string; readonly kind: Kind; readonly difference: Estimate },
): string {
  const up = rows.filter((row) => row.difference > 0).length;
  const down = rows.filter((row) => row.difference < 0).length;
  const same = rows.length - up - down;
  const often = `more in ${up}, less in ${down}${same > 0 ? `, the same in ${same}` : ''} of ${rows.length} shows`;
  return `Each dot is one show, played twice with the same luck, before and after: the change in ${title} (${often}). The coloured line is the mean, the band its 95 % interval, ${intervalPhrase(difference, kind)}; if the band leaves out the line at zero, the change is no accident.`;
}
