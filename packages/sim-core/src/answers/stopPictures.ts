import type { TimesOver, WhenItStops } from '../studies/index.js';
import type { IntervalsPicture, Picture, RibbonPicture } from './picture.js';
import { floodsMore, timeWords, whenWords } from './stopWords.js';

/** What happens when; and the balls handed on, minute by minute. */
export function stopPictures(found: WhenItStops): Picture[] {
  return [...timesPicture(found), ...handedPicture(found)];
}

function timesPicture(found: WhenItStops): IntervalsPicture[] {
  const { module, watched_s: watched, upstream, downstream, calm, stood, stop_s: stop } = found;
  const row = (label: string, { p05, p50, p95 }: TimesOver, chosen = false): IntervalsPicture['rows'] =>
    p50.mean === null
      ? []
      : [{ label, low: p05.mean ?? p50.mean, mean: p50.mean, high: p95.mean ?? watched, chosen }];
  const floods = upstream.flatMap(({ id, first }, i) => row(`first ball falls at ${id}`, first, i === 0));
  const later = downstream
    .filter(floodsMore)
    .flatMap(({ id, first }) => row(`first ball falls at ${id}`, first));
  const again = row('runs again', stood);
  const calmRow = row('calm again', calm.at);
  const act = found.actions.flatMap(({ kind, what, latest }) => {
    const at = latest?.mean ?? null;
    if (latest === null || at === null || at < 0) return [];
    const label =
      kind === 'lever' ? `latest to set the lever of ${what.join()}` : 'latest to begin to take it out';
    return [{ label, mean: at, low: Math.max(0, latest.low ?? at), high: latest.high ?? at, chosen: false }];
  });
  const rows = [...act, ...floods, ...later, ...again, ...calmRow];
  if (rows.length < 2) return [];
  const first = upstream[0];
  return [
    {
      shape: 'intervals',
      id: 'when',
      title: 'What happens when',
      caption: `From the moment at which ${module} stops: dots for half of the shows, bars from one of twenty to 19 of twenty${act.length > 0 ? '; for the latest moments to act, their 95 % intervals' : ''}.${first && first.first.p50.mean !== null ? ` Its own basket floods after ${timeWords(first.first.p50.mean)}` : ` Its own basket does not flood in half of the shows`}; calm again after ${whenWords(calm.at.p50, watched)}.`,
      axis: 'time after the stop begins',
      kind: 'time',
      rows,
      lines: stop === null ? [] : [{ value: stop, label: '' }],
    },
  ];
}

function handedPicture(found: WhenItStops): RibbonPicture[] {
  const { handed_on: minutes, module, stop_s: stop, stood } = found;
  if (minutes.length < 3) return [];
  const usual = minutes.reduce((sum, { without }) => sum + without, 0) / minutes.length;
  const again = stop ?? stood.p50.mean;
  return [
    {
      shape: 'ribbon',
      id: 'handed-on',
      title: `Balls that ${module} hands on, minute by minute`,
      caption: `On average over the shows, with the band from one of twenty to 19 of twenty shows; the dashed line: ${usual.toFixed(0)} balls a minute, without the stop.`,
      axis: 'balls handed on in a minute',
      kind: 'plain',
      across: { title: 'time after the stop begins', kind: 'time' },
      rows: minutes.map(({ from_s: from, mean, p05, p95 }) => ({ x: from + 30, mean, low: p05, high: p95 })),
      lines: [{ value: usual, label: '' }],
      chosen: again === null ? null : { value: again, label: 'runs again' },
    },
  ];
}
