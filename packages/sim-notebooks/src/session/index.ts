export { change } from './change.js';
export { check } from './check.js';
export { counted } from './counted.js';
export { explain } from './explain.js';
export { load, type LoopSource } from './load.js';
export type { Amount, Time } from './optionValues.js';
export { Loop, type LoopOrigin, type Where } from './loop.js';
export type { MeasureName } from './measureName.js';
export {
  bestOf,
  type BestOfLoopsOptions,
  bestOrder,
  type BestOrderLoopOptions,
  compare,
  type CompareLoopsOptions,
  debrief,
  type DebriefLogsOptions,
  enough,
  type EnoughOptions,
  fit,
  type FitLogsOptions,
  floodCard,
  type FloodCardLoopOptions,
  howMany,
  type HowManyLoopOptions,
  howRare,
  type HowRareLoopOptions,
  inline,
  type InlineLoopOptions,
  match,
  type MatchLoopOptions,
  mendFirst,
  type MendFirstLoopOptions,
  sideBySide,
  type SideBySideOptions,
  type Names,
  spares,
  type SparesLoopOptions,
  type VariedName,
  whenItStops,
  type WhenItStopsLoopOptions,
} from './questions/index.js';
export { replay, type ReplayLoopOptions } from './replay.js';
export { Reply } from './reply.js';
export { Run, run, type RunOptions } from './run.js';
export { type PictureName, show, type ShowOptions } from './show.js';
export { SideBySide, type SideBySideRow } from './sideBySide.js';
export type { SimulationOptions } from './simulating.js';
export { Stopped } from './stopped.js';
export { Story } from './story.js';
export { type OwnRows, table } from './table.js';
export type { Showable } from './view.js';
