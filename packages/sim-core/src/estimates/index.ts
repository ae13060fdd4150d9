export { type Availability, moduleAvailability } from './availability.js';
export { floodSeconds, stopSurge } from './floodTime.js';
export { orderStrain } from './orderStrain.js';
export { type ModuleRoughCut, type RoughCut, roughCut } from './roughCut.js';
export { ballsLeftAfterLeaks, expectedStops, fallSeconds } from './tradeArithmetic.js';
export { TYPE_1, type1Departures } from './type1.js';
