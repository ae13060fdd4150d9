/** How a bar of a timeline looks. */
export interface StateLook {
  readonly state: 'running' | 'starved' | 'held_up' | 'stopped' | 'pulled';
  /** Share of the line's height. */
  readonly height: number;
  readonly colour: string;
  /** Only its edge is coloured. */
  readonly hollow: boolean;
}

/**
 * What could be seen at a module. What is as it should be is pale and thin, a stop dark and high; heights and lightness
 * differ, so that all five can be told apart in black and white and by colour-blind readers. In the order of drawing: a
 * short stop is not covered by what it falls into.
 */
export const STATE_LOOKS: readonly StateLook[] = [
  { state: 'running', height: 0.44, colour: '#BFDDF0', hollow: false },
  { state: 'starved', height: 0.14, colour: '#8C8C8C', hollow: false },
  { state: 'held_up', height: 0.66, colour: '#E69F00', hollow: false },
  { state: 'pulled', height: 0.62, colour: '#0072B2', hollow: true },
  { state: 'stopped', height: 0.86, colour: '#7F3300', hollow: false },
];
