import { bundle } from '../../sim-core/build/bundle.mjs';

await bundle('sim-notebooks', {
  entryPoints: ['src/index.ts'],
  external: ['@lapwright/sim-core', '@resvg/resvg-js'],
});
