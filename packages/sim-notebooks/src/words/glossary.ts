/** A word of this hobby, of queueing theory or of statistics, in plain words. */
export interface GlossaryEntry {
  readonly word: string;
  /** Other words for it. */
  readonly also: readonly string[];
  readonly plain: string;
  /** What queueing theory or statistics call it, where they have a name of their own. */
  readonly theory?: string;
}

function entry(words: string, plain: string, theory?: string): GlossaryEntry {
  const [word = '', ...also] = words.split(', ');
  return { word, also, plain, ...(theory !== undefined && { theory }) };
}

/** The words that notebooks, reports and scenario files use. */
export const GLOSSARY: readonly GlossaryEntry[] = [
  entry(
    'module',
    'One machine of the loop: balls come into its basket, its mechanism lifts them, and its run-out hands them to the next module.',
    'server with its queue',
  ),
  entry(
    'basket, in-basket',
    'Where balls wait in front of a mechanism. When it is full, the next ball falls to the floor, unless the file says otherwise.',
    'queue with finite capacity',
  ),
  entry('batch, balls lifted at once', 'How many balls a mechanism lifts in one turn.', 'bulk service'),
  entry('cycle, cycle time', 'The time of one turn of a mechanism.', 'service time'),
  entry(
    'run-out, ramp, track, travel',
    'The way from a mechanism to the next basket, and the time a ball takes for it.',
    'transport delay',
  ),
  entry(
    'lap, loop time',
    'Once round: the time between two visits of a ball to the counter.',
    'cycle time of a closed queueing network',
  ),
  entry(
    'charge, balls in the loop',
    'How many balls go round. Too few leave modules without balls, too many fill the baskets.',
    'population of a closed network',
  ),
  entry(
    'feed, tray',
    'Balls that come from outside and go away at the end: one module or a chain on a bench instead of a loop.',
    'arrivals and departures of an open network',
  ),
  entry('bps, balls a second', 'Balls that pass in a second, on average.', 'throughput'),
  entry('counter', 'The place where passing balls are counted.'),
  entry(
    'spill, flooding, running over',
    'Balls that fall to the floor because a basket is full.',
    'overflow, loss at a full queue',
  ),
  entry(
    'stop, jam',
    'A module stands still until it frees itself or a minder clears it; balls keep coming meanwhile.',
    'failure',
  ),
  entry(
    'minder, crew',
    'Somebody who looks after the loop: clears stops, swaps modules, sweeps. One minder does one job at a time.',
    'repairer of a finite crew',
  ),
  entry('going without balls', 'A mechanism turns but its basket is empty.', 'starvation'),
  entry(
    'backing up, held up, back up',
    'A full basket lets balls wait on the run-out before it; when that is full too, the module before it has to wait.',
    'blocking',
  ),
  entry(
    'overflow chute, return',
    'A way by which balls leave a full basket for an earlier one instead of the floor.',
    'overflow that is sent back',
  ),
  entry('lever', 'Sends what a module lifts back into its own basket while another module is stopped.'),
  entry(
    'locked loop, lock',
    'Everybody waits for somebody else, and nothing will ever move again.',
    'deadlock',
  ),
  entry(
    'pull, pulled, spare',
    'A module that stops too often or too long is taken out of the loop and another put in its place.',
    'failed unit replaced by a standby',
  ),
  entry('box, top up', 'Balls kept aside, put in when too many are lost.', 'replenishment of the population'),
  entry('surplus', 'Balls more than are on the move: they wait in front of the slowest module.'),
  entry('slowest module', 'The one that can pass fewest balls: it sets the pace of all.', 'bottleneck'),
  entry(
    'show',
    'One day, or weekend, of the loop before the public, played once with chance thrown in.',
    'replication',
  ),
  entry(
    'seed',
    'The number that all chance begins with: the same seed gives the same shows, to the last ball.',
  ),
  entry(
    'same luck',
    'Before and after a change each module meets the same jams at the same moments of its running, so that what differs is the change.',
    'common random numbers',
  ),
  entry('mean', 'The average over the simulated shows.'),
  entry(
    'interval, 95 % interval',
    'Where the true average lies, as far as so many shows can tell: such intervals are right 95 times in 100. More shows make it narrower.',
    'confidence interval',
  ),
  entry('margin', 'How large a difference has to be before it matters to you.', 'equivalence margin'),
  entry('measure', 'The figure by which shows are compared, such as balls spilled in an hour.'),
  entry(
    'how rare, splitting',
    'What hardly ever happens is looked for in steps: of shows in which a basket got fuller than usual many copies go on, each with luck of its own.',
    'multilevel splitting',
  ),
  entry(
    'conform, type 1',
    'Keeps to the common interface of such modules: one ball a second, batches of at most 30, room for 30.',
    'type 1 interface standard',
  ),
];

/**
 * The entry of a word, whatever its capital letters, hyphens or ending.
 *
 * @example
 * glossaryEntry('Baskets')?.word // => 'basket'
 */
export function glossaryEntry(word: string): GlossaryEntry | undefined {
  const wanted = plainForm(word);
  return GLOSSARY.find((found) => [found.word, ...found.also].some((name) => plainForm(name) === wanted));
}

function plainForm(word: string): string {
  return word
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]+/g, ' ')
    .replace(/(?<=[a-z]{3})s$/, '');
}
