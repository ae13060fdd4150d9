import { choice, group, listOf, named, type Read, reference, shortOrLong } from '../fields/index.js';

const MOST = 2000;
const modules = listOf(reference('a module'), { min: 1, max: MOST });
const several = listOf(reference('a module'), { min: 2, max: MOST });
const pair = listOf(reference('a module'), { min: 2, max: 2 });
const ofModules = (example: string): ReturnType<typeof named<Read<typeof modules> & object>> =>
  named('module', modules, { max: MOST, example });

/** What must hold of the order of modules on the tables; only looked at when a better order is looked for. */
export const tableForm = group({
  fixed: { field: modules, doc: 'Modules that stay in their place, such as beside the only socket.' },
  together: {
    field: shortOrLong(choice(['builders']), listOf(several, { min: 1, max: MOST })),
    doc: 'Groups that stay in one piece: a list of lists of modules, or builders: the modules of each builder.',
  },
  apart: {
    field: listOf(pair, { min: 1, max: MOST }),
    doc: 'Pairs that never stand side by side, as in [[tipper, train]].',
  },
  never_right_after: {
    field: ofModules('Such as never_right_after: { wheel: [tipper, train] }.'),
    doc: 'For a module those right after which it never stands, as in { wheel: [tipper] }.',
  },
  never_behind: {
    field: ofModules('Such as never_behind: { wheel: [tipper] }.'),
    doc: 'For a module those behind which it never stands anywhere, counted from the first place of the order.',
  },
});

export type TableRead = NonNullable<Read<typeof tableForm>>;
