import type { LoopSpec } from '../model/spec/index.js';

/** The loop with a show that ends after so many public seconds, or with the show if that is earlier. */
export function cutShow(spec: LoopSpec, seconds: number): LoopSpec {
  const { sessions, ...show } = spec.show;
  const end = Math.min(seconds, show.seconds);
  const kept = sessions?.filter(({ fromSeconds }) => fromSeconds < end);
  return {
    ...spec,
    show: {
      ...show,
      seconds: end,
      warmUpSeconds: Math.min(show.warmUpSeconds, end / 2),
      ...(kept && { sessions: kept }),
    },
  };
}
