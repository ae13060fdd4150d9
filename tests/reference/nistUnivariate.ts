import data from './nistUnivariate.json' with { type: 'json' };

/** One value, then pairs on both sides of it: 1001 values in all, as NIST defines NumAcc2, 3 and 4. */
function pairsAround(centre: number): number[] {
  // Rounded to the decimal that is written in the data set.
  const tenths = (x: number): number => Math.round(x * 10) / 10;
  return Array.from({ length: 1001 }, (_, i) =>
    tenths(i === 0 ? centre : i % 2 === 1 ? centre - 0.1 : centre + 0.1),
  );
}

/** The univariate data sets of NIST's Statistical Reference Datasets, by name. */
export const nistUnivariate: Readonly<Record<string, readonly number[]>> = {
  Lew: data.Lew,
  Lottery: data.Lottery,
  Mavro: data.Mavro,
  Michelso: data.Michelso,
  NumAcc1: [10_000_001, 10_000_003, 10_000_002],
  NumAcc2: pairsAround(1.2),
  NumAcc3: pairsAround(1_000_000.2),
  NumAcc4: pairsAround(10_000_000.2),
};
