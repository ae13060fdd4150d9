export { byBuilder, type BuilderDebrief } from './builderDebrief.js';
export { type ModuleDebrief, moduleDebriefs } from './moduleDebrief.js';
