export { type ChartSpec } from './chartSpec.js';
export { intervalDots } from './intervalDots.js';
export { levelMap } from './levelMap.js';
export { loopTimeChart, type LoopTimeMark } from './loopTimeChart.js';
export { type PlaceKind, placesChart } from './placesChart.js';
export { ribbonChart } from './ribbonChart.js';
export { spillChart } from './spillChart.js';
export { timelineChart } from './timelineChart.js';
export type { ShowHours } from './timeAxis.js';
