/** A whole command with its file, what it asks about, and its options. */
const WHOLE =
  /npx lapwright ([a-z-]+)(?: ('[^']*'|[A-Z]+\b|\S+\.(?:ya?ml|json|csv))(?: (?!and\b)([a-z][\w-]*))?)?((?: --[a-z][a-z-]*(?: (?:'[^']*'|[^\s-]\S*(?<=[\w%])|\w))?)*)/g;

/** Commands that a cell asks as a verb of one loop. */
const VERBS: Readonly<Record<string, string>> = {
  compare: 'compare',
  'flood-card': 'floodCard',
  'how-rare': 'howRare',
  inline: 'inline',
  'mend-first': 'mendFirst',
  'when-stops': 'whenItStops',
};

/** Commands whose verbs are called otherwise. */
const COMMANDS = /\b(?:when-stops|mend-first|how-many|best-of|best-order|flood-card|how-rare)\b/g;

/**
 * Advice of the command line in the words of a cell: options without dashes, as they stand between braces, and a command as
 * its verb. A whole command that only the command line can do is left as it is.
 *
 * @example
 * inCellWords('Against it: compare, with --set crew.walk=10s.') // => "Against it: compare, with loop.set('crew.walk', '10s')."
 * @example
 * inCellWords('Ask when-stops, or --on spills_per_hour.') // => "Ask whenItStops, or on: 'spills_per_hour'."
 * @example
 * inCellWords('Write --at 10min, or --values 400,500.') // => "Write at: '10min', or values: [400, 500]."
 * @example
 * inCellWords('About --replications 240 would decide it, or --at-most 900.') // => 'About replications: 240 would decide it, or atMost: 900.'
 * @example
 * inCellWords('Try npx lapwright when-stops a.yaml mill --for 5min') // => "Try whenItStops(loop, 'mill', { for: '5min' })"
 * @example
 * inCellWords('Try npx lapwright compare a.yaml --set charge=60') // => "Try compare(loop, loop.set('charge', 60))"
 */
export function inCellWords(text: string): string {
  let said = '';
  let from = 0;
  for (const match of text.matchAll(WHOLE)) {
    said += partInCellWords(text.slice(from, match.index)) + call(match);
    from = match.index + match[0].length;
  }
  return said + partInCellWords(text.slice(from));
}

/** A whole command as the call of its verb. */
function call([whole, command = '', file, asked, typed = '']: RegExpMatchArray): string {
  const verb = Object.hasOwn(VERBS, command) ? VERBS[command] : undefined;
  if (verb === undefined || file === undefined) return whole;
  const options = [...typed.matchAll(/ --([a-z-]+)(?: ('[^']*'|[^\s-]\S*))?/g)].map(
    ([, name = '', value]) => ({ name, value: value?.replaceAll("'", '') }),
  );
  const sets = options
    .filter(({ name }) => name === 'set')
    .map(({ value = '' }) => {
      const at = value.indexOf('=');
      return `.set('${value.slice(0, at)}', ${written(value.slice(at + 1))})`;
    });
  const others = options
    .filter(({ name }) => name !== 'set')
    .map(({ name, value }) => `${camelCase(name)}: ${value === undefined ? 'true' : written(value)}`);
  const loop = `loop${sets.join('')}`;
  if (verb === 'compare' && (sets.length === 0 || others.length > 0)) return whole;
  const given = [
    ...(verb === 'compare' ? ['loop', loop] : [loop]),
    ...(asked === undefined ? [] : [`'${asked}'`]),
    ...(others.length === 0 ? [] : [`{ ${others.join(', ')} }`]),
  ];
  return `${verb}(${given.join(', ')})`;
}

function partInCellWords(text: string): string {
  const verbs = text.replaceAll(
    /how-many FILE ([\w-]+(?: [\w-]+|(?:\.[\w-]+)+)?)/g,
    (_, thing: string) => `howMany(loop, '${thing}')`,
  );
  const named = verbs.replaceAll(COMMANDS, (name) =>
    name === 'when-stops' ? 'whenItStops' : camelCase(name),
  );
  const changes = named.replaceAll(
    /--set ([\w.-]+)=(\w(?:[\w.]*\w)?)/g,
    (_, key: string, value: string) => `loop.set('${key}', ${written(value)})`,
  );
  const rules = changes.replaceAll(/--rule (\w+)=(\w+)/g, 'rule: { $1: $2 }');
  return rules.replaceAll(
    /--([a-z][a-z-]*)(?: (\d(?:[\w.,]*\w)?|[a-z]+_\w+))?/g,
    (_, name: string, value: string | undefined) =>
      camelCase(name) + (value === undefined ? '' : `: ${written(value)}`),
  );
}

function camelCase(name: string): string {
  return name.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

/** A value as code: several numbers as a list, what has a unit as a text. */
function written(value: string): string {
  if (value.includes(',')) return `[${value.replaceAll(',', ', ')}]`;
  return /[a-z]/i.test(value) ? `'${value}'` : value;
}
