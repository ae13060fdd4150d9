export * from './charts/index.js';
export * from './render/index.js';
export * from './report/index.js';
export * from './rows/index.js';
export { CAUTIONS } from './words/index.js';
