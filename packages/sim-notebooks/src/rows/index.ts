export { type LevelRow, levelRows, levelsAreShares } from './levelRows.js';
export { LEFT_OUT, type LoopTimeRow, loopTimeRows } from './loopTimeRows.js';
export { highest, type ModuleRow, moduleRows } from './moduleRows.js';
export { PLACE_WORDS, type PlaceRow, placeRows } from './placeRows.js';
export { SPILL_CAUSES, type SpillRow, spillRows } from './spillRows.js';
export { sliceHours, type TimeRow, timeRows } from './timeRows.js';
