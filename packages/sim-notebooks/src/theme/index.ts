export { CHART_CONFIG, FONT } from './chartConfig.js';
export { AMOUNT_SCHEME, BLUE, FIVE_PARTS, GREY, INK, ORANGE, SKY, THREE_PARTS } from './colours.js';
export { CHART_HEIGHT, CHART_WIDTH, LINE_HEIGHT } from './sizes.js';
