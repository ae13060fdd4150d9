import {
  estimate,
  ESTIMATE_SCHEMA,
  group,
  number,
  numberOrNull as nullable,
  type Schema,
  text,
  whole,
} from './schemaPieces.js';

const estimateOrNull: Schema = { anyOf: [estimate, { type: 'null' }] };
const estimates: Schema = { type: 'array', items: estimate };

const places: Schema = group({
  baskets: estimates,
  mechanisms: estimates,
  run_outs: estimates,
  chutes: estimates,
  floor: estimates,
  box: estimates,
  lost: estimates,
});

const module: Schema = group(
  {
    id: text,
    title: text,
    builder: text,
    design: text,
    starved_share: estimate,
    stopped_share: estimate,
    held_up_share: estimate,
    pulled_share: estimate,
    pulls_per_show: estimate,
    returned_per_hour: estimate,
    recirculated_per_hour: estimate,
    level_mean: estimate,
    level_p50: estimate,
    level_p95: estimate,
    level_peak: estimate,
    throughput_bps: estimate,
    spills_per_hour: estimate,
    spills_by_cause_per_hour: { $ref: '#/$defs/spills_by_cause' },
    leaks_per_hour: estimate,
    drops_per_hour: estimate,
    stops_per_hour: estimate,
    stops_per_hour_in_loop: estimate,
    overflow_risk: { $ref: '#/$defs/overflow_risk' },
  },
  ['title', 'builder', 'design'],
);

const spare: Schema = group(
  {
    id: text,
    title: text,
    builder: text,
    in_use_share: estimate,
    stops_per_hour: estimate,
    stops_per_hour_in_loop: estimate,
    stopped_share: estimate,
  },
  ['title', 'builder'],
);

const session: Schema = {
  description: 'Public time, and time by the clock, from the first opening to the beginning of the session.',
  ...group({ from_s: number, clock_s: number }),
};

/**
 * The JSON Schema (draft 2020-12) of the result that `lapwright run --json` writes.
 *
 * Names carry their unit: _s seconds, _bps balls per second, _per_hour for each public hour,
 * _per_show for each show; levels are balls, shares and
 * risks run from 0 to 1.
 *
 * @example
 * runResultSchema().properties.throughput_bps // => { $ref: '#/$defs/estimate' }
 */
export function runResultSchema(): Schema {
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Lapwright run',
    description:
      'Estimates over the replications of one scenario. Seconds, balls, balls per second; shares from 0 to 1.',
    ...group({
      kind: { const: 'lapwright-run' },
      format: { const: 1 },
      version: text,
      scenario: group({
        name: text,
        sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' },
        shape: { enum: ['loop', 'chain'] },
        charge_balls: whole,
        opens_s: nullable,
        sessions: { type: 'array', items: session, minItems: 1 },
      }),
      seed: whole,
      generator: text,
      replications: whole,
      replications_asked: { type: 'integer', minimum: 1 },
      partial: { type: 'boolean' },
      horizon_s: number,
      warm_up_s: number,
      throughput_bps: estimate,
      loop_time_s: group({ mean: estimate, sd: estimate, p05: estimate, p50: estimate, p95: estimate }),
      broken_lap_share: estimate,
      balls_on_path: estimate,
      spills_per_hour: estimate,
      spills_by_cause_per_hour: { $ref: '#/$defs/spills_by_cause' },
      leaks_per_hour: estimate,
      drops_per_hour: estimate,
      lost_per_hour: estimate,
      returned_per_hour: estimate,
      recirculated_per_hour: estimate,
      stops_per_hour: estimate,
      overflow_risk: { $ref: '#/$defs/overflow_risk' },
      first_spill_s: estimate,
      crew: group({
        busy_share: estimate,
        jobs_waiting: estimate,
        time_to_clear_s: estimate,
        longest_stop_s: estimate,
        stops_open_at_closing: estimate,
      }),
      pulls_per_show: estimate,
      balls_topped_up_per_show: estimate,
      box_left_balls: estimateOrNull,
      box_empty_risk: estimateOrNull,
      moving_share: estimate,
      locked: group({ show: estimate, time_s: estimate, modules: { type: 'array', items: text } }),
      little_residual: estimate,
      modules: { type: 'array', items: module, minItems: 1 },
      spares: { type: 'array', items: spare },
      loop_time_histogram: group({
        bin_s: number,
        laps: { type: 'array', items: { type: 'number', minimum: 0 } },
      }),
      series: group({
        slice_ends_s: { type: 'array', items: number, minItems: 1 },
        throughput_bps: estimates,
        spills_per_hour: estimates,
        stops_per_hour: estimates,
        busy_minders: estimates,
        jobs_waiting: estimates,
        stopped_modules: estimates,
        held_up_modules: estimates,
        pulled_modules: estimates,
        balls_by_place: places,
        level_mean: { type: 'array', items: estimates },
      }),
    }),
    $defs: {
      estimate: ESTIMATE_SCHEMA,
      spills_by_cause: {
        description: 'Balls per hour, by what was going on at the basket that overflowed.',
        ...group({ module_stopped: estimate, backlog_of_stop: estimate, inflow: estimate }),
      },
      overflow_risk: {
        description:
          'Chance of at least one spill in a public hour (null without a full hour) and in the whole show.',
        ...group({ hour: estimateOrNull, show: estimate }),
      },
    },
  };
}
