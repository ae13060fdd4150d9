import type { HouseRule } from '../experiments/index.js';
import { intervalPhrase, type Kind, KINDS, meanPhrase } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import { formatNumber, formatSeconds, formatShare } from '../units/index.js';

/** How one rule of the house is put into words. */
export interface RuleWords {
  readonly kind: Kind;
  /** The same as a clause has it. */
  readonly spoken?: Kind;
  /** For tables and axes. */
  readonly title: string;
  /** The limit with its unit, as it was written. */
  readonly limit: (rule: HouseRule) => string;
  /** A clause with the figure: "112 balls per hour fall". */
  readonly clause: (figure: string) => string;
}

const WORDS: Readonly<Record<HouseRule['name'], RuleWords>> = {
  spills_per_hour: {
    kind: KINDS.perHour,
    spoken: KINDS.ballsPerHour,
    title: 'balls spilled',
    limit: ({ limit }) => `${formatNumber(limit, { digits: 6 })} per hour`,
    clause: (figure) => `${figure} fall`,
  },
  overflow_risk: {
    kind: KINDS.share,
    title: 'public hours with a spill',
    limit: ({ limit }) => formatShare(limit),
    clause: (figure) => `${figure} of the public hours see a spill`,
  },
  least_throughput: {
    kind: KINDS.bps,
    title: 'balls passing the counter',
    limit: ({ limit }) => `${formatNumber(limit, { digits: 6 })} bps`,
    clause: (figure) => `${figure} pass the counter`,
  },
  longest_lap: {
    kind: 'time',
    title: 'lap, slowest 5 % aside',
    limit: ({ limit }) => formatSeconds(limit),
    clause: (figure) => `laps take up to ${figure}, the slowest 5 % aside`,
  },
};

/** The words for a rule. */
export function ruleWords(name: HouseRule['name']): RuleWords {
  return WORDS[name];
}

/** The limit with its side: "80 per hour at most". */
export function limitPhrase(rule: HouseRule): string {
  return `${WORDS[rule.name].limit(rule)} ${rule.side}`;
}

/** A figure of a rule with its limit: "112 balls per hour fall (95 % interval: 101 to 123 balls per hour, 30 shows), and the house allows 80 per hour". */
export function figureAgainstLimit(rule: HouseRule, figure: Estimate): string {
  const { kind, spoken = kind, clause, limit } = WORDS[rule.name];
  const allowed = `${rule.side === 'at most' ? 'the house allows' : 'the house asks for'} ${limit(rule)}`;
  if (figure.mean === null)
    return `there was nothing to measure of ${WORDS[rule.name].title}, and ${allowed}`;
  const interval =
    figure.low === null || figure.high === null ? '' : `${formatShare(figure.confidence)} interval: `;
  return `${clause(meanPhrase(figure, spoken))} (${interval}${intervalPhrase(figure, kind)}, ${figure.replications} shows), and ${allowed}`;
}
