export { compare, type CompareLoopsOptions } from './compare.js';
export { enough, type EnoughOptions } from './enough.js';
export { mendFirst, type MendFirstLoopOptions } from './mendFirst.js';
