export { EventQueue } from './eventQueue.js';
export { runUntil } from './runUntil.js';
