export { CHART_CONFIG, FONT } from './chartConfig.js';
export { AMOUNT_SCHEME, BLUE, GREY, INK, ORANGE, PLACE_COLOURS, SKY, THREE_PARTS } from './colours.js';
export { STATE_LOOKS, type StateLook } from './stateLooks.js';
export { CHART_HEIGHT, CHART_WIDTH, LINE_HEIGHT } from './sizes.js';
