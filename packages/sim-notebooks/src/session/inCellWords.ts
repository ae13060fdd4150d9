/** Commands whose verbs are called otherwise. */
const COMMANDS = /\b(?:when-stops|mend-first|how-many|best-of|best-order|flood-card|how-rare)\b/g;

/**
 * Advice of the command line in the words of a cell: options without dashes, as they stand between braces, and a command as
 * its verb.
 *
 * @example
 * inCellWords('Against it: compare, with --set crew.walk=10s.') // => "Against it: compare, with loop.set('crew.walk', '10s')."
 * @example
 * inCellWords('Ask when-stops, or --on spills_per_hour.') // => "Ask whenItStops, or on: 'spills_per_hour'."
 * @example
 * inCellWords('Write --at 10min, or --values 400,500.') // => "Write at: '10min', or values: [400, 500]."
 * @example
 * inCellWords('About --replications 240 would decide it, or --at-most 900.') // => 'About replications: 240 would decide it, or atMost: 900.'
 */
export function inCellWords(text: string): string {
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
