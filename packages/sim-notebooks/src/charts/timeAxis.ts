import { CHART_WIDTH, GREY, INK } from '../theme/index.js';
import type { ChartSpec } from './chartSpec.js';

/** What a chart needs to know of the show's hours. */
export interface ShowHours {
  readonly from: number;
  readonly to: number;
  /** Whether hours are times of day or counted from the opening. */
  readonly byTheClock: boolean;
  /**
   * Where each session of a show of several begins on the axis, on which public time runs on without gaps, and what the
   * clock shows there: hours after midnight of the first day, or after the first opening.
   */
  readonly sessions?: readonly { readonly at: number; readonly clock: number }[];
}

const STEPS = [1 / 60, 1 / 30, 1 / 12, 1 / 6, 0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 96];

/** The x channel over the hours of the show, with round ticks and labels such as 10:30 or 1:30. */
export function timeChannel(field: string, hours: ShowHours): ChartSpec {
  const { from, to, byTheClock } = hours;
  return {
    field,
    type: 'quantitative',
    title: byTheClock ? 'time of day' : 'hours since the opening',
    scale: { domain: [from, to], nice: false, zero: false },
    axis: {
      grid: false,
      labelFlush: false,
      ...(severalSessions(hours) ? sessionTicks(hours) : plainTicks(hours)),
    },
  };
}

/**
 * A dashed line wherever the show closes and opens again, thinner within a day, as layers of a chart over time; none in
 * one session.
 */
export function closingLines(hours: ShowHours): ChartSpec[] {
  if (!severalSessions(hours)) return [];
  const { sessions = [] } = hours;
  const reopenings = sessions.slice(1).map(({ at, clock }, i) => ({
    at,
    overnight: dayOf(clock) > dayOf(sessions[i]?.clock ?? clock),
  }));
  const lines = (overnight: boolean, mark: ChartSpec): ChartSpec => ({
    data: { values: reopenings.filter((reopening) => reopening.overnight === overnight) },
    mark: { type: 'rule', aria: false, ...mark },
    encoding: { x: timeChannel('at', hours) },
  });
  // White below the dashes, so that they stand out on dark areas too.
  return [
    lines(false, { color: 'white', strokeWidth: 1.5 }),
    lines(false, { color: GREY, strokeWidth: 1, strokeDash: [2, 4] }),
    lines(true, { color: 'white', strokeWidth: 2.5 }),
    lines(true, { color: INK, strokeWidth: 1.5, strokeDash: [4, 3] }),
  ];
}

function severalSessions({ sessions = [] }: ShowHours): boolean {
  return sessions.length > 1;
}

function plainTicks(hours: ShowHours): ChartSpec {
  const { from, to, byTheClock } = hours;
  const step = STEPS.find((size) => (to - from) / size <= 12) ?? 168;
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  const minutes = 'round((datum.value % 1) * 60) % 60';
  return {
    values: Array.from({ length: Math.max(1, count) }, (_, i) => (first + i) * step),
    labelExpr: `floor(datum.value + 0.001) % ${byTheClock ? 24 : 100000} + ':' + (${minutes} < 10 ? '0' : '') + ${minutes}`,
  };
}

/** Room for one label, pixels: a day and its number are the widest. */
const LABEL_ROOM = 48;

/** Ticks at the beginnings of sessions, and at round clock times where there is room between them. */
function sessionTicks(hours: ShowHours): ChartSpec {
  const { from, to, sessions = [] } = hours;
  const room = (LABEL_ROOM * (to - from)) / CHART_WIDTH;
  const ticks: { readonly at: number; readonly label: readonly string[] }[] = [];
  const isFree = (at: number): boolean => ticks.every((tick) => Math.abs(tick.at - at) >= room);
  const days = sessions.some(({ clock }) => dayOf(clock) > 0);
  let labelled = -1;
  for (const { at, clock } of sessions) {
    if (!isFree(at)) continue;
    const day = dayOf(clock);
    ticks.push({ at, label: [timeOf(clock), ...(days && day !== labelled ? [`day ${day + 1}`] : [])] });
    labelled = day;
  }
  const step = STEPS.find((size) => size >= room) ?? 168;
  for (const [i, { at, clock }] of sessions.entries()) {
    const closes = clock + (sessions[i + 1]?.at ?? to) - at;
    for (let time = (Math.floor(clock / step + 1e-9) + 1) * step; time <= closes + 1e-9; time += step) {
      const place = at + time - clock;
      if (isFree(place)) ticks.push({ at: place, label: [timeOf(time)] });
    }
  }
  ticks.sort((a, b) => a.at - b.at);
  const values = ticks.map(({ at }) => at);
  return {
    values,
    labelExpr: `${JSON.stringify(ticks.map(({ label }) => label))}[indexof(${JSON.stringify(values)}, datum.value)]`,
  };
}

function dayOf(clock: number): number {
  return Math.floor(clock / 24 + 1e-9);
}

function timeOf(clock: number): string {
  const minutes = Math.round(clock * 60) % 1440;
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}
