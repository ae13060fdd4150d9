export { stream } from './stream.js';
export { GENERATOR, StreamBank } from './streamBank.js';
export { type StreamAddress, streamKey } from './streamKey.js';
