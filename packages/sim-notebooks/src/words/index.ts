export { heldUpCaption, movingCaption } from './backUpCaptions.js';
export { boxCaption } from './boxCaption.js';
export {
  crewCaption,
  levelCaption,
  loopTimeCaption,
  placesCaption,
  riskCaption,
  spillCaption,
  starvationCaption,
  stopsCaption,
  throughputCaption,
} from './captions.js';
export { CAUTIONS, SHORT_CAUTIONS } from './cautions.js';
export { closingsNote } from './closings.js';
export { timelineCaption } from './timelineCaption.js';
export { pullsCaption } from './pullsCaption.js';
export { floodCaption } from './floodCaption.js';
export { type GlossaryEntry, GLOSSARY, glossaryEntry } from './glossary.js';
export { pairsCaption } from './pairsCaption.js';
export { finishedWords, progressWords, stoppedWords } from './progressWords.js';
