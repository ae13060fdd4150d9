/**
 * A source of uniform random numbers: each call gives the next one, always above 0 and below 1.
 *
 * Nothing in this package has a source of its own; whatever is random is handed one.
 */
export type Uniform = () => number;
