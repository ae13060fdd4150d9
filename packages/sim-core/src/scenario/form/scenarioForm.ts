import {
  group,
  listOf,
  named,
  quantity,
  randomDuration,
  type Read,
  reference,
  shortOrLong,
  text,
} from '../fields/index.js';
import { crewForm } from './crewForm.js';
import { houseRulesForm } from './houseRulesForm.js';
import { moduleForm, spareForm, templateForm } from './moduleForm.js';
import { showForm } from './showForm.js';
import { tableForm } from './tableForm.js';

/*
 * The form of a scenario file: every key there is, how its value is read, and a sentence on what it means. The published
 * JSON Schema is made from these declarations, so that an editor and the loader agree.
 */

const DAY = 86400;
/** More modules than any table holds, and few enough to load at once. */
export const MOST_MODULES = 2000;

const ballCount = quantity('balls', { min: 0, max: 1_000_000, whole: true });
const rate = quantity('rate', { min: 0, max: 1000, aboveMin: true });

const chargeForm = shortOrLong(
  ballCount,
  group(
    {
      balls: { field: ballCount, doc: 'Balls in the loop, spread evenly over the baskets.' },
      baskets: {
        field: named('module', ballCount, {
          max: MOST_MODULES,
          example: 'Such as baskets: { first-lift: 20, wheel: 15 }.',
        }),
        doc: 'Balls in each basket at the start; none where nothing is said.',
      },
    },
    { exactlyOne: [['balls', 'baskets']] },
  ),
);

const feedForm = group(
  {
    steady: { field: rate, doc: 'One ball after another, evenly: 1 bps.' },
    poisson: { field: rate, doc: 'One ball after another, by chance, at this mean rate: 1 bps.' },
    bursts: {
      field: group({
        balls: {
          field: quantity('balls', { min: 1, max: 100_000, whole: true }),
          doc: 'Balls that come together.',
          required: true,
        },
        every: {
          field: randomDuration({ min: 0.001, max: 60 * DAY }),
          doc: 'Time from one burst to the next.',
          required: true,
        },
      }),
      doc: 'So many balls together every so often.',
    },
    first: {
      field: quantity('duration', { min: 0, max: 60 * DAY }),
      doc: 'When the first balls come (steady and bursts); 0 s if not given.',
    },
  },
  { exactlyOne: [['steady', 'poisson', 'bursts']], atMostOne: [['poisson', 'first']] },
);

export const scenarioForm = group(
  {
    name: { field: text(200), doc: 'Name of the scenario.', required: true },
    about: { field: text(10_000, { lines: true }), doc: 'What it is about, for people.' },
    show: { field: showForm, doc: 'When the public is there.', required: true },
    charge: { field: chargeForm, doc: 'A loop: how many balls go round in it.' },
    feed: { field: feedForm, doc: 'An open chain: how balls come to its first basket.' },
    ball_diameter: {
      field: quantity('length', { min: 1, max: 1000 }),
      doc: 'For baskets given by their size; 14 mm if not given.',
    },
    counter: {
      field: reference('a module'),
      doc: 'Module where balls and laps are counted; the first of a loop, the last of a chain, if not given.',
    },
    crew: { field: crewForm, doc: 'The people who mind the loop.' },
    templates: {
      field: named('template', templateForm, {
        max: MOST_MODULES,
        example: 'Such as templates: { lift: { batch: 2, cycle: 1.8 s } }.',
      }),
      doc: 'Descriptions that modules share.',
    },
    modules: {
      field: named('module', moduleForm, {
        max: MOST_MODULES,
        example: 'Such as modules: { first-lift: { basket: 150, cycle: 0.9 s, travel: 6 s } }.',
      }),
      doc: 'The modules, each under its id.',
      required: true,
    },
    spares: {
      field: named('spare', spareForm, {
        max: MOST_MODULES,
        example: 'Such as spares: { plain-lift: { basket: 150, cycle: 0.9 s, travel: 6 s } }.',
      }),
      doc: 'Modules on the side table that take the place of a pulled one, with the keys of a module.',
    },
    order: {
      field: listOf(reference('a module'), { min: 1, max: MOST_MODULES }),
      doc: 'The ids in the order in which balls pass them; as written under modules if not given. Modules left out stay on the side table.',
    },
    table: {
      field: tableForm,
      doc: 'What must hold of the order when a better one is looked for; nothing else depends on it.',
    },
    house_rules: {
      field: houseRulesForm,
      doc: 'What the house allows, for the question whether a module may go inline; nothing in a simulation depends on it.',
    },
  },
  { exactlyOne: [['charge', 'feed']] },
);

export type ScenarioRead = NonNullable<Read<typeof scenarioForm>>;
export type ChargeRead = Read<typeof chargeForm>;
export type FeedRead = Read<typeof feedForm>;
