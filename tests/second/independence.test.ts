import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

/*
 * What two programs agree on is worth something only as far as they have been written apart.
 */

/** Files that bring the two together. */
const MEETING = new Set(['fingerprint.ts', 'measures.ts', 'story.ts']);

it('the second simulation takes nothing from the simulator but the types of a spec', () => {
  const folder = dirname(fileURLToPath(import.meta.url));
  const own = readdirSync(folder).filter((name) => !name.endsWith('.test.ts') && !MEETING.has(name));
  expect(own.length).toBeGreaterThan(20);
  for (const name of own) {
    const text = readFileSync(join(folder, name), 'utf8');
    const foreign = [...text.matchAll(/import\s+(type\s)?[^;]*?from\s+'([^']+)'/g)]
      .filter(([, type, from]) => {
        if (from === '../../packages/sim-core/src/model/spec/index.js') return type === undefined;
        return from?.startsWith('./') !== true || MEETING.has(`${from.slice(2, -3)}.ts`);
      })
      .map(([line]) => line);
    expect(foreign, name).toEqual([]);
  }
});
