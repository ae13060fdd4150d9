/** A source of one uniform number, above 0 and below 1, for each parameter by its name: the same name, the same number. */
export type UniformFor = (parameter: string) => number;

/** Writes down what was drawn of a parameter. */
export type Note = (parameter: string, value: number) => void;
