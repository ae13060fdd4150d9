export { compare, type CompareLoopsOptions } from './compare.js';
export { enough, type EnoughOptions } from './enough.js';
export { sideBySide, type SideBySideOptions } from './sideBySide.js';
export { mendFirst, type MendFirstLoopOptions } from './mendFirst.js';
