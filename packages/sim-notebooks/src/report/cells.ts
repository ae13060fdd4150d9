import { type Estimate, intervalPhrase, type Kind, meanPhrase } from '@lapwright/sim-core';
import type { Cell } from './html.js';

/** The mean with its interval below it. */
export function estimateCell(estimate: Estimate | null, kind: Kind): string | Cell {
  if (estimate === null || estimate.mean === null) return '-';
  const text = meanPhrase(estimate, kind);
  if (estimate.low !== null && estimate.low === estimate.high) return { text, note: 'in all shows' };
  return {
    text,
    note: estimate.high === null && estimate.low !== null ? 'none seen' : intervalPhrase(estimate, kind),
  };
}

/** The name of a module with its title below it. */
export function nameCell({ id, title }: { readonly id: string; readonly title?: string }): Cell {
  return { text: id, ...(title !== undefined && { note: title }) };
}
