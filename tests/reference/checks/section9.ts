import { type CheckGroup, setAside } from '../check.js';

/* Statistics: intervals, differences, constants of selection procedures. No show is simulated for them. */

const STATISTICS = 'computed, not simulated: compared digit by digit in the tests of the statistics';

export const section9: readonly CheckGroup[] = [
  'STAT-KS',
  'STAT-MLE',
  'STAT-MTBF',
  'STAT-PAIRED-WELCH',
  'STAT-PROP',
  'STAT-QUANTILE',
  'STAT-RANKSEL',
  'STAT-STRD',
  'STAT-T',
  'STAT-MTBF-h',
  'STAT-PROP-h',
  'STAT-RANKSEL-h',
  'STAT-WELCH-h',
].map((id) => setAside(id, 'arithmetic', STATISTICS));
