/** What the lamp's page says of a hand light meter, in English. */
export const METER_WORDS = {
  title: 'By a light meter',
  how: 'The sun moves, tubes grow old: what a hand meter shows turns the seconds of a dose into today’s. Lay it where the film lies, every time alike.',
  caution: 'Never look into the sun or the lamp, and keep skin and eyes out of the light.',
  unsaid:
    'First, once: what does this meter show in the light in which your doses are counted? That is the light of the exposures you have told us of; where there are none yet, a clear noon.',
  counted: (reading: string): string =>
    `Seconds of this lamp are counted in a light of ${reading} on the meter.`,
  other: 'Another meter, another light',
  otherHow:
    'Another meter: read both in one light, and tell here what the new one shows where the old shows the number above. A dose that was told stays as it is.',
  reference: 'The meter shows',
  keep: 'Take it down',
  leave: 'Leave it',
  count: 'Dose',
  seconds: 's',
  clock: 'Clock',
  reading: 'Meter',
  clockAt: (number: number): string => `Clock, reading ${number}`,
  readingAt: (number: number): string => `Meter, reading ${number}`,
  act: 'How long?',
  busy: 'Reckoning …',
  more: (isFirst: boolean): string => (isFirst ? 'seconds' : 'seconds more'),
  range: (low: string, high: string): string => `${low} to ${high}, if the light stays`,
  enough: 'Cover it',
  enoughRange: 'it has had its dose',
  wrongReading: (written: string): string =>
    `The meter must show a number above 0, like 48. You wrote “${written}”.`,
  wrongClock: (written: string): string =>
    `The clock must be seconds or minutes and seconds since the start, like 310 or 5:10. You wrote “${written}”.`,
  wrongCount: (written: string): string =>
    `The dose must be seconds as they stand on Light, like 480. You wrote “${written}”.`,
  noCount: 'Write the dose, in seconds as they stand on Light.',
  noReading: 'Write what the meter shows at the start.',
  half: 'A reading wants both the clock and the meter.',
  again: 'Another exposure',
} as const
