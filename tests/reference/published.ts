import data from './published.json' with { type: 'json' };

/** One number from the literature, or computed from a published formula. */
export interface PublishedValue {
  readonly name: string;
  readonly value: number | readonly number[];
  readonly unit: string;
  readonly comment?: string;
}

/** One reference case: what is simulated, the published numbers, and where they come from. */
export interface PublishedCase {
  readonly id: string;
  readonly section: number;
  readonly title: string;
  readonly description: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly values: readonly PublishedValue[];
  readonly formula: string;
  readonly sources: readonly string[];
}

const cases: readonly PublishedCase[] = data.cases;

/** All cases of a section, in the order of the file. */
export function publishedSection(section: number): PublishedCase[] {
  return cases.filter((one) => one.section === section);
}

/** The case with this id. */
export function published(id: string): PublishedCase {
  const found = cases.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no published case is called ${id}`);
  return found;
}

/** Place of a case in the file, from 0. */
export function caseNumber(id: string): number {
  return cases.indexOf(published(id));
}

/** Names of all published quantities of a case. */
export function quantitiesOf(id: string): string[] {
  return published(id).values.map(({ name }) => name);
}

/** The published value or values of one quantity. */
export function publishedValue(id: string, quantity: string): PublishedValue['value'] {
  const found = published(id).values.filter(({ name }) => name === quantity);
  const [first] = found;
  if (first === undefined) throw new Error(`${id} has no quantity called ${quantity}`);
  if (found.length > 1) throw new Error(`${id} has ${found.length} quantities called ${quantity}`);
  return first.value;
}

/** The published value of one quantity that is a single number. */
export function exact(id: string, quantity: string): number {
  const value = publishedValue(id, quantity);
  if (typeof value !== 'number') throw new Error(`${id}: ${quantity} is a list`);
  return value;
}

/** The published values of a quantity that is a list. */
export function exactList(id: string, quantity: string): readonly number[] {
  const value = publishedValue(id, quantity);
  if (typeof value === 'number') throw new Error(`${id}: ${quantity} is not a list`);
  return value;
}

/** A parameter of a case: one number. */
export function param(id: string, name: string): number {
  const value = published(id).params[name];
  if (typeof value !== 'number') throw new Error(`${id} has no number called ${name} among its parameters`);
  return value;
}

/** A parameter of a case: a list of numbers. */
export function listParam(id: string, name: string): readonly number[] {
  const value = published(id).params[name];
  if (!isNumbers(value)) throw new Error(`${id} has no list of numbers called ${name} among its parameters`);
  return value;
}

/** A parameter of a case: a list of lists of numbers. */
export function setsParam(id: string, name: string): readonly (readonly number[])[] {
  const value = published(id).params[name];
  if (!Array.isArray(value) || !value.every(isNumbers))
    throw new Error(`${id} has no lists of numbers called ${name} among its parameters`);
  return value;
}

function isNumbers(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => typeof item === 'number');
}
