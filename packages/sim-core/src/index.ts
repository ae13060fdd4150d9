export * from './errors/index.js';
export * from './kernel/index.js';
export * from './distributions/index.js';
export * from './random/index.js';
export * from './model/index.js';
