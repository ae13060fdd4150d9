export { advice, worstSpillers } from './advice.js';
export { headline, shows } from './headline.js';
export { estimatePhrase, type Format, FORMATS, intervalPhrase } from './phrase.js';
