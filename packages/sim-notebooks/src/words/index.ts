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
export { CAUTIONS } from './cautions.js';
