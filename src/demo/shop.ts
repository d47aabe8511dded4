import type { DemoFilmName } from './films.ts'

/**
 * The Quillfield Print Room: an invented workshop with invented people, to look round in. Demo.
 * Nothing here is anybody's real shop, figure or name.
 */
export const DEMO_SHOP: DemoShop = {
  name: 'Quillfield Print Room',
  unit: {
    name: 'the big lamp',
    about: 'metal halide behind a shutter, 800 mm above the glass',
    lamp: { kind: 'point', distanceMm: 800, sourceRadiusMm: 20 },
    // Its counter was set by a technician long gone: 100 of its counts are 74 of the usual ones.
    countsPerLu: 1.35,
    lampHours: 412,
  },
  // Somebody slid a screen with a staple in it, from the back left corner of the glass.
  glassMark: { what: 'scratch', xMm: 748, yMm: 640, widthMm: 52, heightMm: 96 },
  fabrics: [
    { name: '43-80', threadsPerCm: 43, threadUm: 80, colour: 'white' },
    { name: '61-64', threadsPerCm: 61, threadUm: 64, colour: 'white' },
    { name: '77-55', threadsPerCm: 77, threadUm: 55, colour: 'white' },
    { name: '90-48', threadsPerCm: 90, threadUm: 48, colour: 'white' },
    { name: '90-48 yellow', threadsPerCm: 90, threadUm: 48, colour: 'dyed' },
    { name: '120-34 yellow', threadsPerCm: 120, threadUm: 34, colour: 'dyed' },
  ],
  emulsions: [
    { name: 'the ready-mixed one', kind: 'ready-mixed', mixedDaysAgo: 23, goodForDays: 300 },
    { name: 'the two-part one', kind: 'two-part', mixedDaysAgo: 9, goodForDays: 28 },
  ],
  bases: [
    { name: 'clear polyester', baseDensity: 0.05, thicknessUm: 100 },
    { name: 'matt drafting film', baseDensity: 0.15, thicknessUm: 90 },
    { name: 'tracing paper', baseDensity: 0.35, thicknessUm: 75 },
  ],
  usualBase: 'matt drafting film',
  media: {
    hand: [
      'soft pencil',
      'fine pigment pen',
      'graphite wash',
      'litho crayon',
      'drawing ink',
      'grease marker',
      'opaque paint',
      'cut masking film',
    ],
    printed: ['laser toner', 'inkjet film'],
  },
  screens: [
    screen('3', '43-80', '600 x 800', 'clean', null),
    screen('5', '61-64', '500 x 700', 'coated', { emulsion: 'the ready-mixed one', daysAgo: 2 }),
    screen('7', '77-55', '500 x 700', 'coated', { emulsion: 'the ready-mixed one', daysAgo: 1 }),
    screen('8', '77-55', '500 x 700', 'in print', { emulsion: 'the two-part one', daysAgo: 6 }),
    screen('11', '90-48', '500 x 700', 'coated', { emulsion: 'the ready-mixed one', daysAgo: 1 }),
    screen('12', '90-48', '600 x 800', 'coated', { emulsion: 'the two-part one', daysAgo: 3 }),
    screen('14', '90-48 yellow', '500 x 700', 'coated', {
      emulsion: 'the ready-mixed one',
      daysAgo: 1,
    }),
    screen('15', '90-48 yellow', '500 x 700', 'exposed', {
      emulsion: 'the ready-mixed one',
      daysAgo: 4,
    }),
    screen('16', '90-48 yellow', '600 x 800', 'clean', null),
    screen('21', '120-34 yellow', '500 x 700', 'coated', {
      emulsion: 'the ready-mixed one',
      daysAgo: 2,
    }),
    screen('22', '120-34 yellow', '500 x 700', 'to reclaim', {
      emulsion: 'the ready-mixed one',
      daysAgo: 19,
    }),
    screen('23', '120-34 yellow', '500 x 700', 'torn', null),
  ],
  usualScreen: '14',
  people: [
    { name: 'Maro Linde', role: 'technician' },
    { name: 'Tamsin Ore', role: 'printer' },
    { name: 'Jonah Pell', role: 'printer' },
    { name: 'Dov Ashgrove', role: 'printer' },
  ],
  films: [
    { film: 'softPencil', base: 'matt drafting film', owner: 'Tamsin Ore' },
    { film: 'brushAndWash', base: 'clear polyester', owner: 'Jonah Pell' },
    { film: 'cutMask', base: 'clear polyester', owner: 'Dov Ashgrove' },
    { film: 'pearBlock', base: 'clear polyester', owner: 'Tamsin Ore' },
    { film: 'kettleBlock', base: 'clear polyester', owner: 'Tamsin Ore' },
  ],
  inks: [
    { name: 'pear ochre', lab: [71, 14, 52], opacity: 0.5, grams: null, pricePerKg: null },
    { name: 'warm grey', lab: [62, 1, 6], opacity: 0.6, grams: null, pricePerKg: null },
    { name: 'black', lab: [16, 0, 0], opacity: 0.9, grams: 900, pricePerKg: 24 },
    { name: 'mixing white', lab: [95, 0, 2], opacity: 0.8, grams: 2400, pricePerKg: 22 },
    { name: 'mixing yellow', lab: [85, 4, 86], opacity: 0.5, grams: 1100, pricePerKg: 34 },
    { name: 'mixing red', lab: [46, 62, 34], opacity: 0.6, grams: 700, pricePerKg: 38 },
    { name: 'mixing blue', lab: [38, 2, -46], opacity: 0.6, grams: 650, pricePerKg: 38 },
  ],
  currency: 'EUR',
  papers: [
    {
      name: 'cream cartridge, 250 g',
      widthMm: 500,
      heightMm: 700,
      sheets: 9,
      pricePerSheet: 1.9,
    },
    { name: 'newsprint for proofs', widthMm: 420, heightMm: 594, sheets: 60, pricePerSheet: 0.1 },
  ],
  ticket: {
    letter: 'K4',
    title: 'Kettle and three pears',
    owner: 'Tamsin Ore',
    paper: 'cream cartridge, 250 g',
    edition: 20,
    plan: {
      proofs: 2,
      offContactMm: 3,
      shelves: 30,
      sheetMm: { widthMm: 250, heightMm: 350 },
      screenCost: 6,
      filmCost: 1.5,
    },
    layers: [
      {
        order: 1,
        ink: 'pear ochre',
        film: 'pearBlock',
        screen: null,
        printed: {
          pulled: 25,
          spoiled: 1,
          why: 'a crease',
          isReclaimed: true,
          readings: [
            [70.4, 14.6, 51.2],
            [70.9, 13.8, 50.6],
            [70.1, 14.9, 51.9],
          ],
        },
      },
      {
        order: 2,
        ink: 'warm grey',
        film: 'kettleBlock',
        screen: '8',
        printed: {
          pulled: 24,
          spoiled: 1,
          why: 'laid askew',
          isReclaimed: false,
          readings: [
            [57.2, 2.1, 8.8],
            [56.8, 2.4, 9.1],
          ],
        },
      },
      { order: 3, ink: 'black', film: 'softPencil', screen: null, printed: null },
    ],
  },
}

export type ScreenState = 'clean' | 'coated' | 'exposed' | 'in print' | 'to reclaim' | 'torn'

export type DemoShop = Readonly<{
  name: string
  unit: Readonly<{
    name: string
    about: string
    lamp: Readonly<{ kind: 'point'; distanceMm: number; sourceRadiusMm: number }>
    /** What its counter shows for one light unit of the models. */
    countsPerLu: number
    lampHours: number
  }>
  glassMark: Readonly<{ what: string; xMm: number; yMm: number; widthMm: number; heightMm: number }>
  fabrics: readonly Readonly<{
    name: string
    threadsPerCm: number
    threadUm: number
    colour: 'white' | 'dyed'
  }>[]
  emulsions: readonly Readonly<{
    name: string
    kind: 'ready-mixed' | 'two-part'
    mixedDaysAgo: number
    goodForDays: number
  }>[]
  bases: readonly Readonly<{ name: string; baseDensity: number; thicknessUm: number }>[]
  usualBase: string
  media: Readonly<{ hand: readonly string[]; printed: readonly string[] }>
  screens: readonly DemoScreen[]
  usualScreen: string
  people: readonly Readonly<{ name: string; role: 'technician' | 'printer' }>[]
  films: readonly Readonly<{ film: DemoFilmName; base: string; owner: string }>[]
  /** Colours from memory; grams null: not on the shelf, mixed for a print. */
  inks: readonly Readonly<{
    name: string
    lab: readonly [number, number, number]
    opacity: number
    grams: number | null
    pricePerKg: number | null
  }>[]
  /** By ISO 4217. */
  currency: string
  papers: readonly Readonly<{
    name: string
    widthMm: number
    heightMm: number
    sheets: number
    pricePerSheet: number
  }>[]
  ticket: Readonly<{
    letter: string
    title: string
    owner: string
    paper: string
    edition: number
    plan: Readonly<{
      proofs: number
      offContactMm: number
      shelves: number
      sheetMm: Readonly<{ widthMm: number; heightMm: number }>
      screenCost: number
      filmCost: number
    }>
    layers: readonly Readonly<{
      order: number
      ink: string
      film: DemoFilmName | null
      /** The tag of the screen it is on. */
      screen: string | null
      /** Null: not printed yet. */
      printed: Readonly<{
        pulled: number
        spoiled: number
        why: string
        isReclaimed: boolean
        /** CIELAB, as measured on the print. */
        readings: readonly (readonly [number, number, number])[]
      }> | null
    }>[]
  }>
}>

export type DemoScreen = Readonly<{
  tag: string
  fabric: string
  /** Inside of the frame. */
  insideMm: Readonly<{ width: number; height: number }>
  state: ScreenState
  coating: Readonly<{ emulsion: string; daysAgo: number }> | null
}>

function screen(
  tag: string,
  fabric: string,
  inside: `${number} x ${number}`,
  state: ScreenState,
  coating: DemoScreen['coating'],
): DemoScreen {
  const [width = 0, height = 0] = inside.split(' x ').map(Number)
  return { tag, fabric, insideMm: { width, height }, state, coating }
}
