import type { RemedySpec, StopCauseSpec, StopTriggerSpec } from '../../model/spec/index.js';
import type { Found } from '../found.js';
import type { StopRead } from '../form/stopForm.js';
import { publicSeconds } from './moments.js';
import type { ModuleSurroundings } from './toModule.js';
import type { ShowTimes } from './toShow.js';

/** Makes a cause of stopping; undefined when something in it is missing or makes no sense (reported). */
export function toStop(
  id: string,
  at: Found,
  read: NonNullable<StopRead>,
  around: ModuleSurroundings,
  capacity: number | undefined,
): StopCauseSpec | undefined {
  const trigger = toTrigger(read, around.show);
  const remedy = toRemedy(read, at, around);
  const { crowded } = read;
  if (crowded && capacity === 0) {
    at.report(
      'contradiction',
      'there is no basket that could be crowded',
      'Give it a basket, or leave crowded out.',
    );
  }
  if (crowded?.above !== undefined && crowded.above > 0 && capacity === Infinity) {
    at.report(
      'contradiction',
      'a share of an unlimited basket is never reached, so it is never crowded',
      'Give the basket a size, or leave crowded out.',
    );
  }
  if (!trigger || !remedy) return undefined;
  if (crowded && (crowded.above === undefined || crowded.times === undefined)) return undefined;
  return {
    id,
    trigger,
    ...(crowded?.above !== undefined &&
      crowded.times !== undefined && { crowded: { above: crowded.above, times: crowded.times } }),
    drops: read.drops ?? 0,
    remedy,
  };
}

function toTrigger(read: NonNullable<StopRead>, show: ShowTimes): StopTriggerSpec | undefined {
  if (read.per_cycle !== undefined) return { kind: 'per_cycle', probability: read.per_cycle };
  if (read.per_ball !== undefined) return { kind: 'per_ball', probability: read.per_ball };
  if (read.running !== undefined) return { kind: 'running', time: read.running };
  if (read.clock !== undefined) return { kind: 'clock', time: read.clock };
  if (read.at === undefined) return undefined;
  const times = read.at.map((moment) => publicSeconds(moment, show));
  return times.includes(undefined) ? undefined : { kind: 'at', times: times.flatMap((time) => time ?? []) };
}

function toRemedy(
  read: NonNullable<StopRead>,
  at: Found,
  around: ModuleSurroundings,
): RemedySpec | undefined {
  if (read.itself !== undefined) return { kind: 'itself', time: read.itself };
  if (read.crew === undefined) return undefined;
  const { clear } = read.crew;
  const notice = read.crew.notice ?? around.notice;
  const walk = read.crew.walk ?? around.walk;
  for (const [key, value] of Object.entries({ notice, walk })) {
    if (value === undefined && !read.crew.found.child(key) && !around.crewAt?.child(key)) {
      at.report(
        'missing_key',
        `nothing says the ${key} time of this stop`,
        `Write ${key}: 10 s here, or once for all in the crew section.`,
      );
    }
  }
  return notice && walk && clear ? { kind: 'crew', notice, walk, clear } : undefined;
}
