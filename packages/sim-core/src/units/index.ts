export { clockLabel, type ClockOptions, clockSecondsAt, type ShowClock } from './clockLabel.js';
export { BARE_NUMBERS, type Dimension, UNIT_EXAMPLES, UNITS } from './dimension.js';
export { formatClock, formatNumber, formatSeconds, formatShare } from './format.js';
export { parseClock } from './parseClock.js';
export { type ParsedQuantity, parseQuantity } from './parseQuantity.js';
