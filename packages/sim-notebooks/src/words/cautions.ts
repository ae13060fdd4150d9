/** The usual cautions, for reports and the README: a simulation knows nothing of them. */
export const CAUTIONS: readonly string[] = [
  'Spilled balls roll: keep the walkways swept and the public behind a barrier, and stop sweeping under feet when it is crowded.',
  'Small balls and small parts are a choking hazard for small children: keep them out of reach, and count what is swept up.',
  'Mains leads, chargers and battery packs: use tested equipment, no daisy chains, nothing charging unattended; work on mains is for licensed people.',
  'Tables and modules are heavy: lift with two, lock the legs, and never move a table while the loop runs.',
  'Gears, belts and chains take fingers, hair and sleeves: switch a module off before you reach into it.',
  'The rules of the venue, local codes and the people licensed for the work decide, not this program.',
];

/** The same in short, one for one, for a card on the table. */
export const SHORT_CAUTIONS: readonly string[] = [
  'Spilled balls roll: sweep the walkways, keep the public behind the barrier.',
  'Small balls and parts choke small children: out of reach, count what is swept up.',
  'Mains, chargers, batteries: tested equipment only, none charging unattended; work on mains is for licensed people.',
  'Lift with two, lock the legs, never move a table while the loop runs.',
  'Switch a module off before you reach into it.',
  'The rules of the venue, local codes and the people licensed for the work decide, not this card.',
];
