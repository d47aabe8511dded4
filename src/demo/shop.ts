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
  ],
  ticket: {
    letter: 'K4',
    title: 'Kettle and three pears',
    owner: 'Tamsin Ore',
    paper: 'cream cartridge, 250 g',
    edition: 20,
    layers: [
      {
        order: 1,
        ink: 'warm grey',
        film: null,
        printed: { pulled: 23, spoiled: 1, why: 'a crease' },
      },
      { order: 2, ink: 'black', film: 'softPencil', printed: null },
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
  ticket: Readonly<{
    letter: string
    title: string
    owner: string
    paper: string
    edition: number
    layers: readonly Readonly<{
      order: number
      ink: string
      film: DemoFilmName | null
      /** Sheets, and the screen reclaimed; null: not printed yet. */
      printed: Readonly<{ pulled: number; spoiled: number; why: string }> | null
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
