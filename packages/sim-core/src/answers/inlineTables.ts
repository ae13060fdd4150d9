import { intervalPhrase, meanPhrase } from '../findings/index.js';
import type { Estimate } from '../statistics/index.js';
import type { Inline, RuleCheck } from '../studies/index.js';
import type { AnswerTable } from './answer.js';
import { toldInDoubt } from './doubtWords.js';
import { measureWords } from './measureWords.js';
import { limitPhrase, ruleWords } from './ruleWords.js';
import { rateWords } from './stopsPerHour.js';

/** Places in the table of the search. */
const MOST_PLACES = 10;

/** The tables of the question whether a module may go inline. */
export function inlineTables(found: Inline): AnswerTable[] {
  return [rulesTable(found), besideTable(found), ...stopsTable(found), ...placesTable(found)];
}

function rulesTable(found: Inline): AnswerTable {
  const own = toldInDoubt(found);
  const rows = own.rules.map((rule) => {
    const { kind, title } = ruleWords(rule.name);
    return [
      title,
      limitPhrase(rule),
      meanPhrase(rule.estimate, kind),
      intervalPhrase(rule.estimate, kind),
      rule.verdict === 'open' ? 'undecided' : rule.verdict,
    ];
  });
  return {
    title: 'The rules of the house',
    head: ['', 'limit', `with ${found.module}`, '95 % interval', ''],
    rows,
  };
}

function besideTable({ with_it: own, without_it: without, with_stand_in: instead }: Inline): AnswerTable {
  const rows = own.rules.flatMap((_, i) =>
    [own, without, instead].map((loop) => {
      const { estimate, name } = loop.rules[i] as RuleCheck;
      const { kind, title } = ruleWords(name);
      const difference = loop.differences[i];
      return [
        loop === own ? title : '',
        loop.label,
        meanPhrase(estimate, kind),
        intervalPhrase(estimate, kind),
        difference === undefined ? '' : intervalPhrase(difference, kind),
      ];
    }),
  );
  return {
    title: 'Beside it, with the same luck: differences from the loop with it',
    head: ['', 'loop', 'mean', '95 % interval', 'difference, 95 %'],
    rows,
  };
}

function stopsTable({ stops, with_it: own, module }: Inline): AnswerTable[] {
  if (stops === null) return [];
  const rows = stops.points.map(({ factor, stops_per_hour: rate, figures }) => [
    factor === 1 ? 'as now' : `${factor} times`,
    Number.isFinite(rate) ? rateWords(rate) : '-',
    ...own.rules.map(({ name }, i) => {
      const { kind } = ruleWords(name);
      return intervalPhrase(figures[i] as Estimate, kind);
    }),
  ]);
  return [
    {
      title: `With more or fewer stops of ${module}`,
      head: ['its stops', 'per hour', ...own.rules.map(({ name }) => `${ruleWords(name).title}, 95 %`)],
      rows,
    },
  ];
}

function placesTable({ search, place }: Inline): AnswerTable[] {
  if (search === null) return [];
  const { title, measure, mean, interval } = measureWords(search.measure);
  const turned = measure.better === 'more' ? -1 : 1;
  const rows = search.places
    .toSorted(
      (a, b) =>
        Number(b.label === place) - Number(a.label === place) ||
        turned * ((a.figure.mean ?? Infinity) - (b.figure.mean ?? Infinity)),
    )
    .slice(0, MOST_PLACES)
    .map(({ label, figure, from_best: behind }) => [
      label,
      mean(figure),
      behind === null ? 'the best' : interval(behind),
      String(figure.replications),
    ]);
  return [
    {
      title: `Places, as the search saw them: ${title}`,
      head: ['place', 'mean', 'difference from the best, 95 %', 'shows'],
      rows,
    },
  ];
}
