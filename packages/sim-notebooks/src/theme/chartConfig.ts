import { GREY, INK } from './colours.js';

/** Fonts of equal metrics on most systems. */
export const FONT = "Arial, Helvetica, 'Liberation Sans', sans-serif";

/** Settings that all charts share. Labels have no length limit: none is ever cut. */
export const CHART_CONFIG: Readonly<Record<string, unknown>> = {
  background: 'white',
  font: FONT,
  axis: {
    labelLimit: 0,
    titleLimit: 0,
    labelFlush: false,
    labelFontSize: 12,
    titleFontSize: 12,
    titleFontWeight: 'normal',
    labelColor: INK,
    titleColor: INK,
    gridColor: '#E4E4E4',
    domainColor: GREY,
    tickColor: GREY,
  },
  legend: {
    labelLimit: 0,
    titleLimit: 0,
    labelFontSize: 12,
    titleFontSize: 12,
    titleFontWeight: 'normal',
    labelColor: INK,
    titleColor: INK,
  },
  text: { fontSize: 12, color: INK },
  title: { fontSize: 13, color: INK, anchor: 'start' },
  view: { stroke: null },
};
