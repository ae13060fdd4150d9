import type { UntilNarrow } from '../studies/index.js';
import { formatShare } from '../units/index.js';
import type { AnswerParts, AnswerTable } from './answer.js';
import { alikeNotes, rareShare } from './alikeWords.js';
import { capital, measureWords } from './measureWords.js';

/**
 * How many shows were enough, in words and figures.
 *
 * @param name of the scenario
 * @example
 * const study = new Study({ seed: 1, source: showsHere() });
 * const found = await untilNarrow(study, exampleLoop, { on: 'throughput_bps', within: { relative: 0.5 }, atMost: 40 });
 * enoughAnswer('Example', found).verdict // => 'enough'
 */
export function enoughAnswer(name: string, found: UntilNarrow): AnswerParts {
  const { on, narrow, replications, estimate, would_take: more, at_most: most, measures } = found;
  const words = measureWords(on);
  const asked = askedPhrase(found);
  const never = estimate.mean === 0 && estimate.low === null;
  const figure = `${words.title} ${words.estimate(estimate)}`;
  return {
    question: 'enough',
    title: `${name}: ${words.title}, to within ${asked}`,
    verdict: never ? 'never seen' : narrow ? 'enough' : 'not enough',
    sentence: never
      ? `Nothing to sharpen: ${words.title} was 0 in each of ${replications} shows, by which for sure at most ${rareShare(estimate)} of shows have any.`
      : narrow
        ? `${replications} shows are enough: ${figure}, known to within ${asked}.`
        : `${replications} shows, the most allowed, are not enough: ${figure}, not known to within ${asked}.${more === null ? '' : ` It would take about ${more}.`}`,
    because: [],
    pictures: [],
    tables: [measuresTable(found)],
    sure: [
      `It was looked at after 30, 40, 50 ... shows; the interval of ${words.title} holds at all looks together, so that stopping when it is narrow does not cheat. That makes it half as wide again as one that is looked at once.`,
      'The table has the usual intervals of a run of so many shows; what nine shows in ten keep to lies between two of the sorted shows.',
      ...alikeNotes([
        estimate,
        ...measures.filter((one) => one.estimate.mean !== 0).map((one) => one.estimate),
      ]),
      'Each show is measured as the scenario says: from its opening, or after its warm-up.',
    ],
    next:
      narrow || never
        ? []
        : [`Ask for a wider interval with --within, or allow more shows than --at-most ${most}.`],
    details: { ...found },
  };
}

function askedPhrase({ asked, on, estimate }: UntilNarrow): string {
  return 'relative' in asked ? formatShare(asked.relative) : measureWords(on).value(asked.absolute, estimate);
}

function measuresTable({ measures }: UntilNarrow): AnswerTable {
  const rows = measures
    .filter(({ estimate: { mean, high } }) => mean !== null && (mean !== 0 || high !== 0))
    .map(({ measure, estimate, nine_in_ten: most }) => {
      const words = measureWords(measure);
      const side = words.measure.better === 'more' ? 'at least' : 'at most';
      const quantile =
        words.measure.spread === 'shows' || (most.mean === 0 && estimate.mean === 0)
          ? ''
          : `${side} ${words.brief(most)}`;
      return [capital(words.title), words.mean(estimate), words.interval(estimate), quantile];
    });
  return { title: 'All measures', head: ['', 'mean', '95 % interval', 'nine shows in ten'], rows };
}
