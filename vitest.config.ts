import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    server: { deps: { external: [/dist\/bundle/] } },
    testTimeout: 180_000,
    hookTimeout: 120_000,
    maxWorkers: '100%',
  },
});
