import {
  type Estimate,
  formatShare,
  intervalPhrase,
  type Kind,
  KINDS,
  meanPhrase,
  momentKind,
  type RunResult,
} from '@lapwright/sim-core';
import { intervalDots } from '../charts/index.js';
import { highest, moduleRows } from '../rows/index.js';
import { heldUpCaption, movingCaption } from '../words/index.js';
import { type Figure, MOST } from './figure.js';

/** Which modules are held up by a full run-out behind them. */
export function heldUpFigure(result: RunResult): Figure {
  const rows = highest(
    moduleRows(result, ({ held_up_share: heldUp }) => heldUp),
    MOST,
  );
  const caption = heldUpCaption(result, rows.length);
  return {
    id: 'held-up',
    title: 'Held up',
    caption,
    ...(rows.length > 0 && {
      spec: intervalDots(rows, { description: caption, title: 'share of time held up', percent: true }),
    }),
  };
}

/** How much of the public time the loop moves, and whether it locks. */
export function movingFigure(result: RunResult): Figure {
  const { moving_share: moving, locked } = result;
  const rows: [string, Estimate, Kind][] = [
    ['public time with the loop moving', moving, KINDS.share],
    ...((locked.show.mean ?? 0) > 0
      ? ([
          ['chance that the loop locks', locked.show, KINDS.share],
          [firstOf(result), locked.time_s, momentKind(result)],
        ] as [string, Estimate, Kind][])
      : []),
  ];
  return {
    id: 'moving',
    title: 'When the loop moves',
    caption: movingCaption(result),
    tables: [
      {
        label: 'When the loop moves',
        head: ['figure', 'mean', `${formatShare(moving.confidence)} interval`, 'shows'],
        rows: rows.map(([name, estimate, kind]) => [
          name,
          meanPhrase(estimate, kind),
          intervalPhrase(estimate, kind),
          String(estimate.replications),
        ]),
      },
    ],
  };
}

function firstOf(result: RunResult): string {
  return `first moment${momentKind(result) === 'time' ? ' after the opening' : ''} (shows that lock)`;
}
