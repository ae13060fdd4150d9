/**
 * What else a study keeps of a show, behind the measures: how often each module stopped, in loop order; or of one module
 * that is watched its own stops and the hours it stood in the loop.
 */
export type Reading = { readonly kind: 'stops' } | { readonly kind: 'watch'; readonly module: string };
