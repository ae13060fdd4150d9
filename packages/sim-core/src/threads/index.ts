export { pack, packAgain, type Parcel, Unpacked } from './parcel.js';
export { serve } from './serve.js';
export { ThreadPool } from './threadPool.js';
