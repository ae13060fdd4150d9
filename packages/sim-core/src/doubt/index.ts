export type { Note, UniformFor } from './drawing.js';
export { drawModule } from './drawModule.js';
export { type DrawAddress, drawnOf, drawParameters } from './drawParameters.js';
export { chanceQuantile, type Count, rateQuantile } from './drawRate.js';
export { drawTime, drawWeibull } from './drawTime.js';
