import { type ReplayedShow, summarySentence, windowLabel, worstSentence } from '../replay/index.js';
import { wrap } from './layout.js';

/**
 * What `lapwright replay` prints: which show this is, its story line by line, and its figures.
 *
 * @example
 * replayText(replayShow(exampleScenario, { seed: 1, replication: 0 }), { story: false }).startsWith('Example: show 0, seed 1') // => true
 */
export function replayText(shown: ReplayedShow, options: { readonly story: boolean }): string {
  const { scenario, seed, replication, worst, window, story, totals } = shown;
  const { name, spec } = scenario;
  const title = `${name}: show ${replication}, seed ${seed}, ${windowLabel(spec.show, window)}`;
  const head = [wrap(title), ...(worst ? [wrap(worstSentence(worst))] : [])].join('\n');
  // Lines that go on below begin under the text, not under the clock.
  const lines = story.map(({ clock, text }) => wrap(`${clock}  ${text}`, ' '.repeat(clock.length + 2)));
  const parts = [
    head,
    ...(options.story && lines.length > 0 ? [lines.join('\n')] : []),
    wrap(summarySentence(totals, window, spec)),
  ];
  return `${parts.join('\n\n')}\n`;
}
