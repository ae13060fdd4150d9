/** What can have happened: the words of the column `what`. */
export type LogWord =
  | 'start'
  | 'end'
  | 'break'
  | 'resume'
  | 'batch'
  | 'stop'
  | 'cleared'
  | 'pulled'
  | 'back'
  | 'spill'
  | 'counter'
  | 'reset'
  | 'lap'
  | 'shift'
  | 'note';

/** A word of the column `what`. */
export interface LogWordMeaning {
  readonly word: LogWord;
  readonly doc: string;
  /** What the column count must have in it; nothing is asked for when absent. */
  readonly count?: 'batch' | 'balls' | 'reading' | 'minders';
  /** Whether it concerns the whole loop, and needs no module, in the log of a show. */
  readonly whole?: true;
}

/** The words of the column `what`, in the order of the help. */
export const LOG_WORDS: readonly LogWordMeaning[] = [
  { word: 'start', doc: 'Watching begins, and the module or the loop is running.', whole: true },
  { word: 'end', doc: 'Watching ends.', whole: true },
  { word: 'break', doc: 'A break begins: nobody watches, or all stands still.', whole: true },
  { word: 'resume', doc: 'The break is over.', whole: true },
  {
    word: 'batch',
    doc: 'A batch comes out of the mechanism; count says how many balls. 0 is a cycle that brought none.',
    count: 'batch',
  },
  {
    word: 'stop',
    doc: 'A module stops; cause says why, level how full its basket stood, count how many balls fell out of the mechanism, lasted how long it took if there is no row "cleared".',
  },
  { word: 'cleared', doc: 'It runs again.' },
  { word: 'pulled', doc: 'A module is taken off the loop.' },
  { word: 'back', doc: 'It is put back; or a spare is put in.' },
  { word: 'spill', doc: 'Balls fall from its basket; count says how many.', count: 'balls' },
  { word: 'counter', doc: 'The ball counter shows so many balls.', count: 'reading', whole: true },
  { word: 'reset', doc: 'The ball counter is set back, to the count given or to 0.', whole: true },
  { word: 'lap', doc: 'A marked ball comes round; lasted says how long its lap took.', whole: true },
  { word: 'shift', doc: 'From now on so many minders are on duty.', count: 'minders', whole: true },
  { word: 'note', doc: 'Only a note.', whole: true },
];

const BY_WORD: ReadonlyMap<string, LogWordMeaning> = new Map(
  LOG_WORDS.map((meaning) => [meaning.word, meaning]),
);

/** The meaning of what stands in the column `what`; undefined when it is none of the words. */
export function wordOf(cell: string): LogWordMeaning | undefined {
  return BY_WORD.get(cell) ?? BY_WORD.get(cell.trim().toLowerCase());
}
