import {
  caseNumber,
  exact,
  published,
  publishedValue,
  type PublishedValue,
  quantitiesOf,
} from './published.js';
import { estimate, type Reading } from './measure.js';

/** Why a published quantity is not compared with a simulation here. */
export type Excuse = 'formula' | 'not expressible' | 'arithmetic';

/** One line of the table of checks. */
export interface Row {
  readonly caseId: string;
  readonly quantity: string;
  readonly published: PublishedValue['value'];
  /** What the simulation must agree with: the published value, or what follows from it as the remark says. */
  readonly expected: number;
  readonly outcome:
    | {
        readonly kind: 'sampled';
        readonly mean: number;
        readonly standardError: number;
        readonly z: number;
        /** Largest relative standard error at which the comparison still says something. */
        readonly bluntest: number;
        readonly runs: string;
      }
    | { readonly kind: 'exact'; readonly value: number; readonly runs: string }
    | { readonly kind: Excuse };
  readonly remark: string;
}

/** Checks that share their simulation runs; nothing runs before `rows` is called. */
export interface CheckGroup {
  readonly caseId: string;
  /** False when the quantities are only listed, with a reason why. */
  readonly simulated: boolean;
  /** Published quantities this group accounts for. */
  readonly quantities: readonly string[];
  rows(): Row[];
}

/** One quantity to be read off every replication. */
export interface Metric<R> {
  readonly quantity: string;
  /** @default the published value of the quantity */
  readonly expected?: number;
  readonly read: (run: R) => Reading;
  /** @default 0.05 */
  readonly bluntest?: number;
  readonly remark?: string;
}

/** Independent replications and what is read off each of them. */
export interface Sampling<R> {
  readonly replications: number;
  /** Simulated seconds of one replication, for the table. */
  readonly seconds: number;
  readonly run: (replication: number) => R;
  readonly metrics: readonly Metric<R>[];
}

/** More than the replications of any case. */
const NUMBERS_PER_CASE = 100_000;

/**
 * A comparison by z-test: estimate minus published value, in standard errors of the estimate.
 *
 * Every case has replication numbers of its own, so that no two cases share their luck and an unlucky stretch of
 * arrivals does not show in all of them at once.
 */
export function sampled<R>(caseId: string, sampling: Sampling<R>): CheckGroup {
  const { replications, seconds, run, metrics } = sampling;
  return {
    caseId,
    simulated: true,
    quantities: metrics.map(({ quantity }) => quantity),
    rows: () => {
      const readings = metrics.map((): Reading[] => []);
      const first = NUMBERS_PER_CASE * caseNumber(caseId);
      for (let i = 0; i < replications; i++) {
        const one = run(first + i);
        for (const [k, { read }] of metrics.entries()) readings[k]?.push(read(one));
      }
      return metrics.map(({ quantity, expected, bluntest = 0.05, remark = '' }, i) => {
        const target = expected ?? exact(caseId, quantity);
        const { mean, standardError } = estimate(readings[i] ?? []);
        const z = (mean - target) / standardError;
        const runs = `${replications} x ${seconds} s`;
        return {
          caseId,
          quantity,
          published: publishedValue(caseId, quantity),
          expected: target,
          outcome: { kind: 'sampled', mean, standardError, z, bluntest, runs },
          remark,
        };
      });
    },
  };
}

/** One run without luck and what it gives. */
export interface Determined {
  /** Simulated seconds, for the table. */
  readonly seconds: number;
  readonly quantities: readonly string[];
  /** The values of these quantities, in the same order. */
  readonly values: () => readonly number[];
  readonly remark?: string;
}

/** A comparison without luck: the values must be equal to the published ones. */
export function exactly(caseId: string, determined: Determined): CheckGroup {
  const { seconds, quantities, values, remark = '' } = determined;
  return {
    caseId,
    simulated: true,
    quantities,
    rows: () => {
      const found = values();
      return quantities.map((quantity, i) => ({
        caseId,
        quantity,
        published: exact(caseId, quantity),
        expected: exact(caseId, quantity),
        outcome: { kind: 'exact', value: found[i] ?? NaN, runs: `1 x ${seconds} s` },
        remark,
      }));
    },
  };
}

/** Published quantities that no simulation here is compared with, and why. */
export function setAside(
  caseId: string,
  kind: Excuse,
  reason: string,
  quantities: readonly string[] = quantitiesOf(caseId),
): CheckGroup {
  return {
    caseId,
    simulated: false,
    quantities,
    rows: () =>
      published(caseId)
        .values.filter(({ name }) => quantities.includes(name))
        .map(({ name, value }) => ({
          caseId,
          quantity: name,
          published: value,
          expected: NaN,
          outcome: { kind },
          remark: reason,
        })),
  };
}
