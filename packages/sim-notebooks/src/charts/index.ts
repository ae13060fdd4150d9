export { type ChartSpec } from './chartSpec.js';
export { intervalDots } from './intervalDots.js';
export { levelMap } from './levelMap.js';
export { loopTimeChart, type LoopTimeMark } from './loopTimeChart.js';
export { placesChart } from './placesChart.js';
export { ribbonChart } from './ribbonChart.js';
export { spillChart } from './spillChart.js';
export type { ShowHours } from './timeAxis.js';
