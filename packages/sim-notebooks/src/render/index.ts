export { textWidth } from './textWidth.js';
export { prepareToDraw, toSvg } from './toSvg.js';
