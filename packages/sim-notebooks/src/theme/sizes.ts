/** Width of the drawing area of every chart, pixels. */
export const CHART_WIDTH = 700;
/** Height of the drawing area of a chart over time. */
export const CHART_HEIGHT = 220;
/** Height of one line of a chart with a line for each module. */
export const LINE_HEIGHT = 15;
