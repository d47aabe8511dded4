import { TESTS_TITLES } from '../../words.ts'

/** What the page on evenness says, in English. Numbers come in already written for people. */
export const EVENNESS_WORDS = {
  title: TESTS_TITLES.evenness,
  lead: 'On the glass of',
  unit: 'Lamp',
  working: 'Fitting the map …',
  nothing: 'A map of the light on the glass will stand here.',
  none: 'Nobody has laid wedges on this glass yet. Five of them, at one dose, are enough for a map; nine for a curved one.',
  mapAlt: (least: string, most: string): string =>
    `The glass from above, its front at the bottom: light from ${least} to ${most} in 100.`,
  mapMore: (sd: string): string =>
    `Light in hundredths of that over the counter’s sensor; the stronger the shade, the less. Each could be off by ${sd}.`,
  front: 'front of the glass',
  table: 'The light in hundredths, the glass’s front row last',
  row: (number: number): string => `Row ${number}`,
  column: (number: number): string => `Column ${number}`,
  corner: 'From the left',
  tell: 'Lay wedges on the glass',
  how: 'One coated screen as large as the glass, or several at one dose. Tape the wedges down, expose, wash out, read each.',
  caution: 'Do not look at the lamp. The lid is heavy: hold it until it rests.',
  width: 'Glass, left to right',
  height: 'Glass, front to back',
  dose: 'Dose as it was set',
  glassFirst: 'Say how large the glass is: then it is drawn here, with places for the wedges.',
  day: 'Exposed on',
  glassAlt: 'The glass from above. Tap where another wedge lay.',
  five: 'Five places: a tilted plane',
  nine: 'Nine places: a curved surface',
  which:
    'Five tell which side is darker. A lamp that is brightest in the middle wants nine, and wedges in steps of 0.05.',
  add: 'One more place',
  remove: (number: number): string => `Take place ${number} away`,
  removeShort: 'away',
  place: (number: number): string => `Place ${number}`,
  x: 'from left',
  y: 'from front',
  solid: 'last solid step',
  clear: 'first clear step',
  act: 'Take it down',
  busy: 'Taking it down …',
  taken: 'The wedges are taken down.',
  units: { metric: 'mm', imperial: 'in' },
  wrong: {
    glass: (written: string): string =>
      written === ''
        ? 'Say how large the glass is, like 1200.'
        : `The glass must be a length, like 1200 mm or 48 in. You wrote “${written}”.`,
    place: (number: number): string =>
      `Place ${number} wants two lengths inside the glass, like 300 and 200.`,
    solid: (number: number): string => `Say the last solid step of place ${number}.`,
    clear: (number: number): string =>
      `The first clear step of place ${number} comes after its last solid one.`,
    few: 'Three places at least; five tell more.',
  },
} as const
