import { describe, expect, it } from 'vitest';
import {
  dudewiczDalalConstant,
  kimNelson,
  type KimNelson,
  kimNelsonEta,
  momentsOf,
  rinottConstant,
  rinottSecondStage,
  stream,
  subsetIndependent,
  subsetPaired,
} from '../../../packages/sim-core/src/index.js';
import { normalQuantile } from '../../../packages/sim-core/src/numerics/index.js';

function normals(purpose: string): () => number {
  const uniform = stream({ seed: 13, replication: 0, place: null, purpose });
  return () => normalQuantile(uniform());
}

const list = (n: number, value: () => number): number[] => Array.from({ length: n }, value);

/** The best leads by just delta, all others are equal: the hardest case, with the best last. */
const SLIPPAGE = [0, 0, 0, 0, 1];
const BEST = 4;
const RUNS = 500;

function selectOne(draw: () => (system: number) => number, n0: number, alpha: number): KimNelson {
  const selection = kimNelson({ k: SLIPPAGE.length, n0, alpha, delta: 1 });
  while (!selection.finished) {
    const value = draw();
    selection.observe(selection.inPlay.map(value));
  }
  return selection;
}

describe('selection of the best by Kim and Nelson', () => {
  // The promise is a lower bound, so the share of right choices is held against it as it stands, without a tolerance.
  it('is right as often as promised with random numbers of their own, 500 times over', () => {
    const normal = normals('own');
    let right = 0;
    for (let run = 0; run < RUNS; run++) {
      const draw = () => (system: number) => (SLIPPAGE[system] ?? NaN) + 3 * normal();
      if (selectOne(draw, 10, 0.1).best === BEST) right++;
    }
    expect(right / RUNS).toBeGreaterThanOrEqual(0.9);
  });

  it('is right as often as promised with shared random numbers, and much sooner', () => {
    const normal = normals('shared');
    const replications = { shared: 0, own: 0 };
    let right = 0;
    for (let run = 0; run < RUNS; run++) {
      const draw = (together: number) => () => {
        const common = normal();
        return (system: number) =>
          (SLIPPAGE[system] ?? NaN) + 3 * (Math.sqrt(together) * common + Math.sqrt(1 - together) * normal());
      };
      const selection = selectOne(draw(0.8), 10, 0.05);
      if (selection.best === BEST) right++;
      replications.shared += selection.replications;
      replications.own += selectOne(draw(0), 10, 0.05).replications;
    }
    expect(right / RUNS).toBeGreaterThanOrEqual(0.95);
    expect(replications.shared).toBeLessThan(0.5 * replications.own);
  });

  it('would not be right as often if it simply took the leader after the first stage', () => {
    const normal = normals('leader');
    let right = 0;
    for (let run = 0; run < RUNS; run++) {
      const means = SLIPPAGE.map((mean) => momentsOf(list(10, () => mean + 3 * normal())).mean);
      if (means.indexOf(Math.max(...means)) === BEST) right++;
    }
    expect(right / RUNS).toBeLessThan(0.7);
  });

  it('follows a case worked by hand', () => {
    // n0 = 3, k = 2: eta = ((2 x 0.05)^(-1) - 1) / 2 = 4.5, h^2 = 2 x 4.5 x 2 = 18. Differences of the first three: 1, 0,
    // 2, variance 1, so N = 18 and r W = (18 - r) / 2. Then one difference of 1 each time: the sum of differences is r,
    // which is above (18 - r) / 2 first at r = 7, since 6 is not more than 6.
    expect(kimNelsonEta(2, 3, 0.05)).toBeCloseTo(4.5, 12);
    const selection = kimNelson({ k: 2, n0: 3, alpha: 0.05, delta: 1 });
    const differences = [1, 0, 2, 1, 1, 1, 1];
    for (const [i, difference] of differences.entries()) {
      expect(selection.finished).toBe(false);
      expect(selection.best).toBeNull();
      selection.observe([10 * i, 10 * i + difference]);
    }
    expect(selection).toMatchObject({ finished: true, best: 1, replications: 7, inPlay: [1] });
    expect(() => selection.observe([1])).toThrow(/finished is true/);
  });

  it('takes the leader at once when the first stage was more than enough, and the first of equals', () => {
    const alike = kimNelson({ k: 3, n0: 2, alpha: 0.1, delta: 1 });
    alike.observe([1, 1, 1]);
    alike.observe([2, 2, 2]);
    expect(alike).toMatchObject({ finished: true, best: 0, replications: 2 });
  });

  it('refuses what does not fit', () => {
    const selection = kimNelson({ k: 3, n0: 2, alpha: 0.1, delta: 1 });
    expect(() => selection.observe([1, 2])).toThrow(/values.length is 2 but must be 3/);
    expect(() => selection.observe([1, NaN, 2])).toThrow(/values\[1\] is NaN/);
    expect(selection.replications).toBe(0);
    expect(() => kimNelson({ k: 1, n0: 2, alpha: 0.1, delta: 1 })).toThrow(/k is 1/);
    expect(() => kimNelson({ k: 3, n0: 2, alpha: 0.1, delta: 0 })).toThrow(/delta is 0/);
    expect(() => kimNelson({ k: 3, n0: 2, alpha: 0.9, delta: 1 })).toThrow(/alpha is 0.9/);
  });
});

describe('two-stage selection', () => {
  it('has the same constant by both ways of integrating when there are two systems', () => {
    // With k = 2 both ask for the distribution of the difference of two t variables: a chi-square double integral on one
    // side, the distribution function of t on the other.
    for (const [n0, chance] of [
      [5, 0.8],
      [12, 0.95],
      [60, 0.99],
    ] as const)
      expect(rinottConstant(2, n0, chance)).toBeCloseTo(dudewiczDalalConstant(2, n0, chance), 7);
  });

  it('finds Rinott’s constant where the first stage is as short as can be', () => {
    // One degree of freedom, k = 2: the difference of two Cauchy variables is twice a Cauchy variable.
    expect(rinottConstant(2, 2, 0.9) / (2 * Math.tan(0.4 * Math.PI))).toBeCloseTo(1, 5);
    expect(dudewiczDalalConstant(2, 2, 0.9) / (2 * Math.tan(0.4 * Math.PI))).toBeCloseTo(1, 5);
  });

  it('is right as often as promised in the slippage configuration, 500 times over', () => {
    const normal = normals('rinott');
    const spreads = [1, 2, 1, 3, 2];
    const n0 = 10;
    const h = rinottConstant(SLIPPAGE.length, n0, 0.9);
    let right = 0;
    for (let run = 0; run < RUNS; run++) {
      const draw = (system: number): number =>
        (SLIPPAGE[system] ?? NaN) + (spreads[system] ?? NaN) * normal();
      const columns = SLIPPAGE.map((_, system) => list(n0, () => draw(system)));
      const sds = columns.map((column) => Math.sqrt(momentsOf(column).variance));
      const sizes = rinottSecondStage({ n0, h, delta: 1, sds });
      const means = columns.map(
        (column, system) =>
          momentsOf([...column, ...list((sizes[system] ?? n0) - n0, () => draw(system))]).mean,
      );
      if (means.indexOf(Math.max(...means)) === BEST) right++;
    }
    expect(right / RUNS).toBeGreaterThanOrEqual(0.9);
  });

  it('refuses a chance that drawing lots would give', () => {
    expect(() => rinottConstant(4, 10, 0.25)).toThrow(/pStar is 0.25/);
    expect(() => rinottConstant(4, 1, 0.9)).toThrow(/n0 is 1/);
    expect(() => rinottSecondStage({ n0: 5, h: 3, delta: 1, sds: [1, NaN] })).toThrow(/sds\[1\] is NaN/);
  });
});

describe('screening', () => {
  // All equal but the best: in 500 studies the best must stay at least as often as promised.
  it('keeps the best as often as promised, and drops what is far behind', () => {
    const normal = normals('screening');
    const stays = { independent: 0, paired: 0 };
    let size = 0;
    for (let run = 0; run < RUNS; run++) {
      const apart = [0, 0, 0, -6, 0].map((mean) => momentsOf(list(12, () => mean + 2 * normal())));
      const independent = subsetIndependent(apart, 0.9);
      if (independent.includes(4)) stays.independent++;
      expect(independent).not.toContain(3);
      const common = list(12, normal);
      const paired = subsetPaired(
        [0, 0, 0, -2, 0].map((mean) => common.map((x) => mean + 4 * x + 0.5 * normal())),
        0.9,
      );
      if (paired.includes(4)) stays.paired++;
      expect(paired).not.toContain(3);
      size += paired.length;
    }
    expect(stays.independent / RUNS).toBeGreaterThanOrEqual(0.9);
    expect(stays.paired / RUNS).toBeGreaterThanOrEqual(0.9);
    expect(size / RUNS).toBeLessThan(4);
  });

  it('refuses what cannot be screened', () => {
    expect(() => subsetIndependent([momentsOf([1, 2])], 0.9)).toThrow(/systems is 1/);
    expect(() => subsetIndependent([momentsOf([1, 2]), momentsOf([1])], 0.9)).toThrow(
      /systems\[1\].count is 1/,
    );
    expect(() => subsetPaired([[1, 2], [1]], 0.9)).toThrow(/columns\[1\].length is 1 but must be 2/);
    expect(() =>
      subsetPaired(
        [
          [1, 2],
          [1, NaN],
        ],
        0.9,
      ),
    ).toThrow(/columns\[1\] is/);
  });
});
