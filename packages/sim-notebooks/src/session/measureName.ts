import { InputError, MEASURES, suggest } from '@lapwright/sim-core';

/** The figures by which shows are compared, spelled out so that a cell completes them. */
export type MeasureName =
  | 'throughput_bps'
  | 'spills_per_hour'
  | 'spill_hour_share'
  | 'spill_show_share'
  | 'loop_time_s'
  | 'moving_share'
  | 'stops_per_hour'
  | 'lost_per_hour'
  | 'minders_busy_share'
  | 'pulls_per_show'
  | 'loop_time_p95_s';

/** The measure a question was asked on; what is not one is refused with the nearest that is. */
export function checkedMeasure(on: string | undefined): string {
  const known = MEASURES.map(({ id }) => id);
  const wanted = on ?? 'spills_per_hour';
  if (!known.includes(wanted)) {
    throw new InputError([
      {
        code: 'unknown_name',
        path: 'on',
        found: wanted,
        rule: 'the name of a measure',
        hint: suggest(wanted, known),
      },
    ]);
  }
  return wanted;
}
