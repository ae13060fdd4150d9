import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import type { CheckGroup, Row } from './check.js';
import { IN_FULL } from './length.js';
import { publishedSection, quantitiesOf } from './published.js';
import { sectionPage } from './table.js';

/** Standard errors between estimate and published value at which a check fails. */
const Z_LIMIT = 3;
/** Relative difference at which a check without luck fails. */
const EXACT_LIMIT = 1e-9;

/**
 * The tests of one section: every published quantity is accounted for, every check holds, and the rows are those kept
 * in the folder `table`. Run with UPDATE_REFERENCE=1 to write these anew, with PRINT_REFERENCE=1 to print them. Kept are
 * the rows of the length that `npm test` has; at full length they are others, and only the checks are made.
 */
export function describeSection(section: number, groups: readonly CheckGroup[]): void {
  describe(`published values, section ${section}`, () => {
    const cases = publishedSection(section);
    const found = new Map<CheckGroup, Row[]>();
    const rowsOf = (group: CheckGroup): Row[] => {
      const rows = found.get(group) ?? group.rows();
      found.set(group, rows);
      return rows;
    };

    it('leaves no published quantity out and invents none', () => {
      const ids = new Set(cases.map(({ id }) => id));
      expect(groups.filter(({ caseId }) => !ids.has(caseId))).toEqual([]);
      for (const id of ids) {
        const accounted = groups
          .filter(({ caseId }) => caseId === id)
          .flatMap(({ quantities }) => quantities);
        expect(new Set(accounted), id).toEqual(new Set(quantitiesOf(id)));
      }
    });

    for (const { id, title } of cases) {
      const simulated = groups.filter((group) => group.caseId === id && group.simulated);
      if (simulated.length === 0) continue;
      it(`${id}: ${title}`, () => {
        expect(simulated.flatMap(rowsOf).flatMap(faults)).toEqual([]);
      });
    }

    it(IN_FULL ? 'gives its rows' : 'gives the rows that are kept', () => {
      const page = sectionPage(section, groups.flatMap(rowsOf));
      const file = fileURLToPath(new URL(`table/section${section}.md`, import.meta.url));
      if (process.env['PRINT_REFERENCE'] === '1') process.stdout.write(`${page}\n`);
      expect(page).toContain(`section ${section}`);
      if (IN_FULL) return;
      if (process.env['UPDATE_REFERENCE'] === '1') writeFileSync(file, page);
      expect(existsSync(file), 'kept table').toBe(true);
      expect(page).toBe(readFileSync(file, 'utf8'));
    });
  });
}

/** What is wrong with a row, in words. */
function faults({ quantity, expected, outcome }: Row): string[] {
  switch (outcome.kind) {
    case 'sampled': {
      const { mean, standardError, z, bluntest } = outcome;
      const wrong: string[] = [];
      if (!(Math.abs(z) < Z_LIMIT))
        wrong.push(`${quantity}: ${mean} (standard error ${standardError}), published ${expected}, z = ${z}`);
      if (!(standardError < bluntest * Math.abs(expected)))
        wrong.push(
          `${quantity}: standard error ${standardError} is too large to tell anything about ${expected}`,
        );
      return wrong;
    }
    case 'exact':
      return Math.abs(outcome.value - expected) <= EXACT_LIMIT * Math.abs(expected)
        ? []
        : [`${quantity}: ${outcome.value} instead of ${expected}`];
    default:
      return [];
  }
}
