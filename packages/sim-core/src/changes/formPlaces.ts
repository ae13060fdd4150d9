import { type DocumentPath, type JsonSchema, scenarioSchema } from '../scenario/index.js';

/** What the form of scenario files says about the map at a place, in each of the ways it may be written. */
export class FormPlaces {
  private readonly schema = scenarioSchema();

  /** Keys of which exactly one may stand in the map at this place, if `key` is among them: the others. */
  rivals(map: DocumentPath, key: string): string[] {
    const sets = this.ways(map).flatMap((way) =>
      list(way['allOf']).flatMap((rule) => {
        const keys = list(rule['oneOf']).flatMap(({ required }) => required as readonly string[]);
        return keys.includes(key) ? keys : [];
      }),
    );
    return sets.filter((other) => other !== key);
  }

  /** Whether keys at this place are names of the author's own choice, such as those of modules. */
  isNamed(map: DocumentPath): boolean {
    return this.ways(map).some((way) => typeof way['additionalProperties'] === 'object');
  }

  /** Whether the value at this place may be written short, as a number of balls that could stand behind `balls`. */
  isShortForBalls(place: DocumentPath): boolean {
    const ways = this.ways(place);
    const long = ways.some((way) => Object.hasOwn(way['properties'] ?? {}, 'balls'));
    return long && ways.some((way) => way['type'] === 'integer');
  }

  private ways(path: DocumentPath): JsonSchema[] {
    let ways = this.unfolded(this.schema);
    for (const part of path) ways = ways.flatMap((way) => this.step(way, part));
    return ways;
  }

  private step(way: JsonSchema, part: string | number): JsonSchema[] {
    const properties = (way['properties'] ?? {}) as Readonly<Record<string, JsonSchema>>;
    const inner =
      typeof part === 'number'
        ? way['items']
        : Object.hasOwn(properties, part)
          ? properties[part]
          : way['additionalProperties'];
    return typeof inner === 'object' && inner !== null ? this.unfolded(inner as JsonSchema) : [];
  }

  private unfolded(schema: JsonSchema): JsonSchema[] {
    const { $ref, anyOf } = schema;
    if (typeof $ref === 'string') {
      const defs = this.schema['$defs'] as Readonly<Record<string, JsonSchema>>;
      return this.unfolded(defs[$ref.slice($ref.lastIndexOf('/') + 1)] ?? {});
    }
    return anyOf === undefined ? [schema] : list(anyOf).flatMap((one) => this.unfolded(one));
  }
}

function list(value: unknown): readonly JsonSchema[] {
  return (value ?? []) as readonly JsonSchema[];
}
