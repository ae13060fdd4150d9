/**
 * A chart as a Vega-Lite specification (version 6). Declared loosely on purpose: the types of vega-lite cannot be seen
 * from a notebook cell, and a chart is checked by compiling it, not by its type.
 */
export type ChartSpec = Readonly<Record<string, unknown>>;

/** Wraps what is particular to a chart into a complete specification. */
export function chartSpec(description: string, parts: ChartSpec): ChartSpec {
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    description,
    ...parts,
  };
}
