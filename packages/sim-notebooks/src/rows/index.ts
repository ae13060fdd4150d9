export {
  episodeRows,
  type EpisodeRow,
  type FallRow,
  fallRows,
  shownModules,
  STATE_WORDS,
} from './episodeRows.js';
export { type FloodRow, floodRows } from './floodRows.js';
export { type LevelRow, levelRows, levelsAreShares } from './levelRows.js';
export { LEFT_OUT, type LoopTimeRow, loopTimeRows } from './loopTimeRows.js';
export { highest, type ModuleRow, moduleRows } from './moduleRows.js';
export { type PairRow, pairRows } from './pairRows.js';
export { type Place, PLACE_WORDS, type PlaceRow, placeRows } from './placeRows.js';
export { SPILL_CAUSES, type SpillRow, spillRows } from './spillRows.js';
export { onAxis, type TimelineAxis, timelineAxis } from './timelineAxis.js';
export { sessionHours, sliceHours, type TimeRow, timeRows } from './timeRows.js';
