import type { ModuleRoughCut, RoughCut } from '../estimates/index.js';
import type { LoopSpec, ModuleSpec } from '../model/spec/index.js';
import { formatSeconds } from '../units/index.js';
import { WIDTH, wrap } from './layout.js';

/** A line of a list: set in, and further where it goes on. */
export function listLine(text: string): string {
  return `  ${wrap(text, '    ', WIDTH - 2)}`;
}

/** Baskets that do not spill when they are full: where their balls stay or go, a line for each. */
export function whenFullLines({ modules, supply }: LoopSpec, rough: RoughCut): string[] {
  const lines = modules.flatMap(({ id, basket: { whenFull } }, m) => {
    const before = m > 0 ? modules[m - 1] : supply.kind === 'charge' ? modules.at(-1) : undefined;
    const figures = rough.modules[m];
    if (figures === undefined || whenFull.kind === 'spill') return [];
    if (whenFull.kind === 'return')
      return `${id} returns balls to ${modules[whenFull.to]?.id}: ${fullAfter(figures)}`;
    return before === undefined
      ? `${id} spills all the same: a feed cannot be held up`
      : `${id} backs up to ${before.id}: ${fullAfter(figures)}${heldUpAfter(before.id, figures)}`;
  });
  if (lines.length === 0) return [];
  return [['Not spilling when full:', ...lines.map(listLine)].join('\n')];
}

function fullAfter({ floodsAfterSeconds: after }: ModuleRoughCut): string {
  if (after === Infinity) return 'never full';
  return after === 0 ? 'full already' : `full ${formatSeconds(after)} after it stops`;
}

function heldUpAfter(before: string, { holdsUpAfterSeconds: after }: ModuleRoughCut): string {
  if (after === Infinity) return '';
  return `, ${before} held up ${after === 0 ? 'at once' : `after ${formatSeconds(after)}`}`;
}

/** What is pulled and what takes its place, where levers are, and what comes from the box. */
export function handsSentences({ modules, spares = [], crew }: LoopSpec): string[] {
  const pulled = modules.flatMap((module) =>
    module.pull ? `${module.id} (${standIns(module, spares)})` : [],
  );
  const named = new Set(modules.flatMap(({ pull }) => pull?.spares ?? []));
  const idle = spares.flatMap(({ id }, s) => (named.has(s) ? [] : id));
  const levers = modules.flatMap(({ id, lever }) =>
    lever ? `${id} (while ${lever.watches.map((m) => modules[m]?.id).join(' or ')} is stopped)` : [],
  );
  const { topUp } = crew;
  return [
    ...(pulled.length > 0 ? [`Pulled, with what goes in instead: ${pulled.join(', ')}.`] : []),
    ...(idle.length > 0 ? [`No module has a pull rule that names ${idle.join(', ')}.`] : []),
    ...(levers.length > 0 ? [`Levers send balls back at ${levers.join(', ')}.`] : []),
    ...(topUp
      ? [
          `When fewer than ${topUp.below} balls are on the path, balls from the box (${topUp.box}) go to ${modules[topUp.into]?.id}, up to ${topUp.upTo} on the path.`,
        ]
      : []),
  ];
}

function standIns({ pull }: ModuleSpec, spares: readonly ModuleSpec[]): string {
  const names = (pull?.spares ?? []).flatMap((s) => spares[s]?.id ?? []);
  return [...names, ...(pull?.chute ? ['a plain chute'] : [])].join(', else ');
}
