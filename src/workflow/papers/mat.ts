import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { foot, type PaperShop } from './foot.ts'
import { line, type Run, runs, wrapped } from './lines.ts'
import { type MatLayout, type MatSize, matLayout } from './matLayout.ts'
import { scaleBar } from './scaleBar.ts'
import { type Box, dashed, keptFree } from './shapes.ts'
import { targetMark } from './targetMark.ts'

export type Mat = Readonly<{ size?: MatSize; shop?: PaperShop }>

type Within = Readonly<{ layout: MatLayout; letters: Letters }>

const TEXT_MM = 3.9
const LEADING_MM = 5.3

/**
 * The reading mat, at true size: a frame of targets about a window for the film and a slot for the
 * step wedge, both to be cut out; what to do stands in the window, so that nothing but light lies
 * beside the film in the end.
 */
export function matPage(
  { size = 'a4', shop }: Mat,
  { letters }: Readonly<{ letters: Letters }>,
): FilmPage {
  const layout = matLayout(size)
  const { widthMm, heightMm, targets, targetMm, leftMm, rightMm, footMm } = layout
  const within = { layout, letters }
  return {
    widthMm,
    heightMm,
    items: [
      ...targets.flatMap(({ number, ...place }) => targetMark(number, place, targetMm)),
      ...head(within),
      ...cutOut(layout.window),
      ...cutOut(layout.slot),
      ...inWindow(within),
      ...inSlot(within),
      ...fullSize(within),
      ...foot(
        { shop: shop ?? null, about: `Reading mat, ${SIZE_WORDS[size]}` },
        { letters, sizeMm: TEXT_MM, leftMm, rightMm, yMm: footMm },
      ),
    ],
  }
}

const SIZE_WORDS: Readonly<Record<MatSize, string>> = { a4: 'A4', letter: 'Letter', a3: 'A3' }

/** A line to cut along, with the corners of a place kept free. */
function cutOut(box: Box): readonly PageItem[] {
  return keptFree(box)
}

function head({ layout, letters }: Within): readonly PageItem[] {
  const { window, widthMm } = layout
  const base = 20.6
  const middle = widthMm / 2
  const words: readonly Run[][] = [
    [['bold', 'Lay me on the light table,']],
    [['plain', 'cut out, this side up.']],
  ]
  return [
    ...line(letters, 'Reading mat', {
      face: 'title',
      sizeMm: 11.6,
      xMm: window.xMm - 0.5,
      yMm: base - 1.2,
    }),
    ...words.flatMap((parts, at) =>
      runs(letters, parts, {
        sizeMm: TEXT_MM,
        xMm: middle + 14,
        yMm: base - 6.6 + 5.2 * at,
      }),
    ),
  ]
}

/** What is to be done, in order: bold what, plain how. */
const STEPS: readonly (readonly [string, string])[] = [
  ['Measure.', 'Lay a ruler on the bar below. If it is not 100 mm long, print again at full size.'],
  [
    'Cut out.',
    'This window and the long slot, along the dashes. Steel ruler, cutting mat, fingers behind the blade. Keep the squares whole, and keep this piece.',
  ],
  [
    'Lay.',
    'The mat on a lit light table, flat, taped at its corners. The film in the window, as it should read, with a finger of light round it; or under the mat, where it is larger: what the window shows is read.',
  ],
  [
    'Lay the step wedge in the slot,',
    'its clear end to the left, with light at both ends. Without it densities are a guess.',
  ],
  [
    'Make it dark.',
    'Lamps of the room off, blinds down, no flash. What shines on the film hides its marks.',
  ],
  [
    'Photograph all of the mat,',
    'from straight above as well as by hand you can. Tap on the film to focus; then draw the picture darker, until the clear film is just no longer white.',
  ],
  [
    'Read.',
    'Under Light, “My own drawing: photograph it”; or: yellowroom read PHOTO.jpg --out MAP.tif. One or two squares may be covered or in glare, no more.',
  ],
]

const CAUTION = 'A light table, never the exposure lamp: ultraviolet light harms eyes and skin.'

function inWindow({ layout, letters }: Within): readonly PageItem[] {
  const { window } = layout
  const leftMm = window.xMm + 10
  const widthMm = Math.min(150, window.widthMm - 20)
  const setting = { sizeMm: TEXT_MM, widthMm: widthMm - NUMBER_MM } as const
  const items: PageItem[] = []
  let yMm = window.yMm + 23
  items.push(
    ...line(letters, 'Cut this out', {
      face: 'title',
      sizeMm: 11.6,
      xMm: leftMm - 0.5,
      yMm,
    }),
  )
  yMm += 10.5
  for (const [at, [what, how]] of STEPS.entries()) {
    items.push(
      ...line(letters, String(at + 1), { face: 'bold', sizeMm: TEXT_MM, xMm: leftMm, yMm }),
      ...line(letters, what, { face: 'bold', sizeMm: TEXT_MM, xMm: leftMm + NUMBER_MM, yMm }),
    )
    for (const words of wrapped(letters, how, { face: 'plain', ...setting })) {
      yMm += LEADING_MM
      items.push(
        ...line(letters, words, {
          face: 'plain',
          sizeMm: TEXT_MM,
          xMm: leftMm + NUMBER_MM,
          yMm,
        }),
      )
    }
    yMm += STEP_GAP_MM
  }
  for (const words of wrapped(letters, CAUTION, { face: 'bold', sizeMm: TEXT_MM, widthMm })) {
    items.push(...line(letters, words, { face: 'bold', sizeMm: TEXT_MM, xMm: leftMm, yMm }))
    yMm += LEADING_MM
  }
  return items
}

const NUMBER_MM = 7
const STEP_GAP_MM = 8.2

function inSlot({ layout, letters }: Within): readonly PageItem[] {
  const { slot } = layout
  const yMm = slot.yMm + slot.heightMm / 2 + 1.3
  const setting = { sizeMm: TEXT_MM, yMm } as const
  const middleMm = slot.xMm + slot.widthMm / 2
  const start = slot.xMm + 8
  const end = slot.xMm + slot.widthMm - 8
  return [
    ...line(letters, 'clear end', { ...setting, face: 'plain', xMm: start }),
    ...line(letters, 'Step wedge: cut this out too', {
      ...setting,
      face: 'bold',
      xMm: middleMm,
      anchor: 'middle',
    }),
    ...line(letters, 'dark end', { ...setting, face: 'plain', xMm: end, anchor: 'end' }),
    dashed([
      { xMm: start, yMm: yMm + 2.6 },
      { xMm: end, yMm: yMm + 2.6 },
    ]),
  ]
}

function fullSize({ layout, letters }: Within): readonly PageItem[] {
  const { scale } = layout
  const words = ['100 mm by a ruler?', 'If not, print at full size.']
  return [
    ...scaleBar(scale, { letters, sizeMm: TEXT_MM }),
    ...words.flatMap((text, at) =>
      line(letters, text, {
        face: 'plain',
        sizeMm: TEXT_MM,
        xMm: scale.xMm + 116,
        yMm: scale.yMm + 3.4 + 5.2 * at,
      }),
    ),
  ]
}
