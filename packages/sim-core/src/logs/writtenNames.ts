import type { LogRow } from './logRow.js';

/** A name as it stands in a log, with the first row that has it. */
export interface WrittenName {
  readonly kind: 'module' | 'cause';
  readonly name: string;
  readonly file: string;
  readonly line: number;
}

/** The names in rows that count: of modules, and of causes of stopping. */
export function writtenNames(
  rows: readonly LogRow[],
  files: readonly { readonly head: Readonly<Partial<Record<'module', string>>> }[],
  sources: readonly { readonly file: string }[],
): WrittenName[] {
  const seen = { module: new Map<string, LogRow>(), cause: new Map<string, LogRow>() };
  for (const row of rows) {
    if (row.fate !== 'used') continue;
    const module = row.module === '' ? (files[row.file]?.head['module'] ?? '') : row.module;
    if (module !== '' && !seen.module.has(module)) seen.module.set(module, row);
    if (row.what === 'stop' && row.cause !== '' && !seen.cause.has(row.cause)) seen.cause.set(row.cause, row);
  }
  return (['module', 'cause'] as const).flatMap((kind) =>
    [...seen[kind]].map(([name, { file, line }]) => ({ kind, name, file: sources[file]?.file ?? '', line })),
  );
}
