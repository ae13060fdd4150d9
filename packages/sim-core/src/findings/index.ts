export { advice, worstSpillers } from './advice.js';
export { standstill } from './standstill.js';
export { unattended } from './unattended.js';
export { headline, shows } from './headline.js';
export { estimatePhrase, intervalPhrase, type Kind, KINDS, meanPhrase } from './phrase.js';
