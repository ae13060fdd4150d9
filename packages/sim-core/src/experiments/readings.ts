import type { ReplicationResult } from '../model/index.js';
import { MEASURES } from './measures.js';

/**
 * What a study keeps of a show, as a row of numbers: the measures; or the measures and behind them how often each module
 * stopped, in loop order.
 */
export type Reading = keyof typeof READINGS;

export const READINGS = {
  measures: (result: ReplicationResult): number[] => MEASURES.map(({ read }) => read(result)),
  'measures and stops': (result: ReplicationResult): number[] => [
    ...MEASURES.map(({ read }) => read(result)),
    ...result.modules.stops,
  ],
} as const;
