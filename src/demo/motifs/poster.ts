import { type Point, points } from '../curve.ts'
import { lettering, type Setting, widthOfMm } from '../letters.ts'
import { type Cut, peeled } from '../marks/cut.ts'
import { type Hand, leave, peelOut } from '../marks/knife.ts'
import type { Random } from '../random.ts'
import { canalCuts } from './canal.ts'

const LEFT_MM = 24
const RIGHT_MM = 273

/** “Open night”: a poster cut from masking film, A3 portrait. */
export function posterCuts(random: Random): readonly Cut[] {
  const hand: Hand = { strayMm: 0.05, overcutShare: 0.22, random }
  const fine: Hand = { strayMm: 0.025, overcutShare: 0.08, random }
  return [
    ...canalCuts(random),
    ...spread('OPEN NIGHT', { xMm: LEFT_MM, topMm: 304, heightMm: 31, weightShare: 0.2 }, hand),
    ...spread(
      'QUILLFIELD PRINT ROOM',
      { xMm: LEFT_MM, topMm: 341, heightMm: 12, weightShare: 0.17 },
      hand,
    ),
    ...knockedOut(fine),
    ...line(
      'SCREENS - FILMS - INK - SOUP FROM THE KETTLE AT NINE',
      { xMm: LEFT_MM, topMm: 377, heightMm: 4 },
      fine,
    ),
    ...line(
      'BRING A DRAWING ON CLEAR FILM, A4 OR LESS, BLACK AS YOU CAN MAKE IT',
      { xMm: LEFT_MM, topMm: 384, heightMm: 3 },
      fine,
    ),
    ...line(
      'INVENTED PLACE AND DAY, DEMO FILM 3 OF 3, CUT BY KNIFE 1:1, THE SMALLEST LETTERS ARE 2 MM HIGH',
      { xMm: LEFT_MM, topMm: 390, heightMm: 2, weightShare: 0.15 },
      fine,
    ),
    ...barTest(fine),
    ...corners(fine),
    ...wear(random),
  ]
}

function line(text: string, setting: Setting, hand: Hand): readonly Cut[] {
  return lettering(text, setting).flatMap((piece) => leave(piece, hand))
}

/** Set to the full measure by opening the gaps. */
function spread(text: string, setting: Setting, hand: Hand): readonly Cut[] {
  const gapShare = setting.gapShare ?? 0.14
  const missingMm = RIGHT_MM - LEFT_MM - widthOfMm(text, { ...setting, gapShare })
  const wider = gapShare + missingMm / (text.length - 1) / setting.heightMm
  // Words part by the gap as well: the space itself takes none, so this comes out a little short.
  return line(text, { ...setting, gapShare: wider }, hand)
}

function knockedOut(hand: Hand): readonly Cut[] {
  const text = 'FRIDAY 7 TO 11, COLD QUAY 26'
  const band = points([
    [LEFT_MM, 358],
    [RIGHT_MM, 357.8],
    [RIGHT_MM, 372],
    [LEFT_MM, 372.2],
  ])
  const setting = { xMm: LEFT_MM, topMm: 361, heightMm: 8, weightShare: 0.17, gapShare: 0.24 }
  const xMm = (LEFT_MM + RIGHT_MM - widthOfMm(text, setting)) / 2
  return [
    ...leave([band], hand),
    ...lettering(text, { ...setting, xMm }).flatMap((piece) => peelOut(piece, hand)),
  ]
}

const BARS_MM = [0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1]

/** Bars left standing, and the same cut out, each under its width in tenths of a millimetre. */
function barTest(hand: Hand): readonly Cut[] {
  const exact: Hand = { ...hand, strayMm: 0.012 }
  const bar = (xMm: number, wideMm: number): readonly Point[] =>
    points([
      [xMm, 399],
      [xMm + wideMm, 399],
      [xMm + wideMm, 408],
      [xMm, 408],
    ])
  const block = points('152,397.6 251,397.6 251,409.4 152,409.4')
  return [
    ...BARS_MM.flatMap((wideMm, at) => [
      ...leave([bar(27 + at * 12, wideMm)], exact),
      ...leave([bar(29.4 + at * 12, wideMm)], exact),
      ...line(
        wideMm.toFixed(2),
        { xMm: 32.4 + at * 12, topMm: 402.4, heightMm: 2, weightShare: 0.15 },
        exact,
      ),
    ]),
    ...leave([block], hand),
    ...BARS_MM.flatMap((wideMm, at) => [
      ...peelOut([bar(155 + at * 12, wideMm)], exact),
      ...lettering(wideMm.toFixed(2), {
        xMm: 158 + at * 12,
        topMm: 402.4,
        heightMm: 2,
        weightShare: 0.15,
      }).flatMap((piece) => peelOut(piece, exact)),
    ]),
  ]
}

/** A cross in each corner of the sheet, bars of 0.3 mm. */
function corners(hand: Hand): readonly Cut[] {
  return (
    [
      [12, 12],
      [285, 12],
      [12, 408],
      [285, 408],
    ] as const
  ).flatMap(([x, y]) => [
    ...leave(
      [
        points([
          [x - 5, y - 0.15],
          [x + 5, y - 0.15],
          [x + 5, y + 0.15],
          [x - 5, y + 0.15],
        ]),
      ],
      hand,
    ),
    ...leave(
      [
        points([
          [x - 0.15, y - 5],
          [x + 0.15, y - 5],
          [x + 0.15, y + 5],
          [x - 0.15, y + 5],
        ]),
      ],
      hand,
    ),
  ])
}

/** Pinholes in the large darks, and one long scratch that took a part of the layer with it. */
function wear(random: Random): readonly Cut[] {
  const holes = Array.from({ length: 14 }, (): Cut => {
    const at = { xMm: random.between(28, 150), yMm: random.between(30, 120) }
    const radiusMm = random.between(0.03, 0.16)
    const ring = Array.from({ length: 7 }, (_, corner): Point => {
      const turn = (corner / 7) * 2 * Math.PI
      const reach = radiusMm * random.between(0.75, 1.2)
      return { xMm: at.xMm + reach * Math.cos(turn), yMm: at.yMm + reach * Math.sin(turn) }
    })
    return peeled([ring], random.between(0.5, 1))
  })
  const way = Array.from(
    { length: 15 },
    (_, at): Point => ({
      xMm: 58 + at * 5.6,
      yMm: 62 + at * 2.1 - 0.055 * at * at + random.around(0, 0.12),
    }),
  )
  const widths = way.map((_, at) =>
    at === 0 || at === way.length - 1 ? 0.004 : random.between(0.02, 0.055),
  )
  const scratch = [
    ...way.map((place, at) => ({ xMm: place.xMm, yMm: place.yMm - widths[at] })),
    ...way.map((place, at) => ({ xMm: place.xMm, yMm: place.yMm + widths[at] })).reverse(),
  ]
  return [...holes, peeled([scratch], 0.16)]
}
