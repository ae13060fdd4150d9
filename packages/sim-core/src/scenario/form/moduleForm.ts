import {
  choice,
  group,
  named,
  quantity,
  randomDuration,
  type Read,
  reference,
  text,
} from '../fields/index.js';
import { basketForm, spareBasketForm } from './basketForm.js';
import { countedForm } from './countedForm.js';
import { leverForm, pullForm } from './pullForm.js';
import { stopForm } from './stopForm.js';

const DAY = 86400;

const ownKeys = {
  builder: { field: text(100), doc: 'Who built it.' },
  design: { field: text(100), doc: 'Name of the design, where several people have built the same.' },
  basket: {
    field: basketForm,
    doc: 'The in-basket: balls it holds, such as 150. Needed, here or in the template.',
  },
  drive: {
    field: choice(['continuous', 'demand']),
    doc: 'continuous: the motor always turns (the default). demand: it waits until balls are there.',
  },
  start_at: {
    field: quantity('balls', { min: 1, max: 100_000, whole: true }),
    doc: 'Demand drive: balls that must wait before a cycle starts; 1 if not given.',
  },
  batch: {
    field: quantity('balls', { min: 1, max: 10_000, whole: true }),
    doc: 'Most balls lifted in one cycle; 1 if not given.',
  },
  catch: {
    field: quantity('share', { min: 0, max: 1, aboveMin: true }),
    doc: 'Chance that a ball the mechanism reaches for is caught; 1 if not given.',
  },
  cycle: {
    field: randomDuration({ min: 0.01, max: DAY }),
    doc: 'Time of one cycle, such as 3.6 s or { lognormal: { mean: 3.6 s, cv: 0.05 } }. Needed, here or in the template.',
  },
  travel: {
    field: randomDuration({ min: 0, max: DAY }),
    doc: 'Time from the mechanism to the next basket. Needed, here or in the template.',
  },
  leak: {
    field: quantity('share', { min: 0, max: 1 }),
    doc: 'Chance that a released ball falls to the floor; 0 if not given.',
  },
  stops: {
    field: named('cause of stopping', stopForm, {
      max: 50,
      example: 'Give each cause a name of your own: stops: { jam: { per_cycle: 0.001, itself: 20 s } }.',
    }),
    doc: 'Why it stops, each cause under a name of its own.',
  },
};

const moduleKeys = {
  ...ownKeys,
  pull: { field: pullForm, doc: 'When it is taken off the loop, and what takes its place.' },
  lever: { field: leverForm, doc: 'A lever that sends what it lifts back into its own basket.' },
};

const nameKeys = {
  like: {
    field: reference('a template'),
    doc: 'Name of the template it takes everything from that it does not say itself.',
  },
  title: { field: text(100), doc: 'Name to show, if the id is too short.' },
};

const countedKeys = {
  counted: {
    field: countedForm,
    doc: 'What its figures were counted from, for questions that keep in mind how little that is; no result of a run depends on it.',
  },
};

/** A template: any of a module's keys, to be shared. */
export const templateForm = group(moduleKeys, {
  notHere: {
    counted: 'It was one module that was counted: write it there, also for what its template says.',
  },
});

/** A module; what it says itself goes before what its template says. */
export const moduleForm = group({ ...nameKeys, ...moduleKeys, ...countedKeys });

/** A module for the side table, to take the place of one that is pulled. */
export const spareForm = group(
  { ...nameKeys, ...ownKeys, basket: { ...ownKeys.basket, field: spareBasketForm }, ...countedKeys },
  {
    notHere: {
      pull: 'A spare is never pulled.',
      lever: 'The lever of a spare is not used: a lever goes with its module.',
    },
  },
);

export type TemplateRead = Read<typeof templateForm>;
export type ModuleRead = Read<typeof moduleForm>;
export type SpareRead = Read<typeof spareForm>;
