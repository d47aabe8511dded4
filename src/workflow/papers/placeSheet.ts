import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { linePath, type Place } from '../../formats/pagePath.ts'
import { line } from './lines.ts'
import type { DrawnWords, PlaceContent, Segment } from './placeContent.ts'
import { type Box, clearedBox } from './shapes.ts'

const DASHES_MM = [2, 1.6]
/** Around words on a line. */
const AIR_MM = 0.9

/**
 * What of a drawing lies inside a window, moved to its place on a page: strokes cut at the window,
 * words only where they are whole.
 *
 * @param origin where the drawing’s own origin comes to lie on the page
 */
export function windowOf(
  { segments, words }: PlaceContent,
  { origin, window, letters }: Readonly<{ origin: Place; window: Box; letters: Letters }>,
): readonly PageItem[] {
  const moved = ({ xMm, yMm }: Place): Place => ({ xMm: xMm + origin.xMm, yMm: yMm + origin.yMm })
  return [
    ...segments.flatMap((segment): PageItem[] => {
      const { penMm, dashed } = segment
      const cut = cutTo({ ...segment, from: moved(segment.from), to: moved(segment.to) }, window)
      if (cut === null) return []
      const stroke = { kind: 'stroke', widthMm: penMm, path: linePath(cut) } as const
      return [dashed ? { ...stroke, dashesMm: DASHES_MM } : { ...stroke, ends: 'square' }]
    }),
    ...words.flatMap((each) => wordsIn(each, { moved, window, letters })),
  ]
}

function wordsIn(
  { text, at, sizeMm, bold, cleared }: DrawnWords,
  {
    moved,
    window,
    letters,
  }: Readonly<{ moved: (place: Place) => Place; window: Box; letters: Letters }>,
): readonly PageItem[] {
  const face = bold ? 'bold' : 'plain'
  const widthMm = letters.widthMm(text, { face, sizeMm }) + 2 * AIR_MM
  const heightMm = 0.72 * sizeMm + 2 * AIR_MM
  const boxes = at.map((place): Box => {
    const { xMm, yMm } = moved(place)
    return { xMm: xMm - widthMm / 2, yMm: yMm - heightMm / 2, widthMm, heightMm }
  })
  const box = boxes.find((each) => isWithin(each, window))
  if (box === undefined) return []
  return [
    ...(cleared ? [clearedBox(box)] : []),
    ...line(letters, text, {
      face,
      sizeMm,
      xMm: box.xMm + widthMm / 2,
      yMm: box.yMm + heightMm - AIR_MM,
      anchor: 'middle',
    }),
  ]
}

function isWithin(box: Box, window: Box): boolean {
  return (
    box.xMm >= window.xMm &&
    box.yMm >= window.yMm &&
    box.xMm + box.widthMm <= window.xMm + window.widthMm &&
    box.yMm + box.heightMm <= window.yMm + window.heightMm
  )
}

/** The part of a straight stroke inside a box, by its parameter along each side; null: none. */
export function cutTo(
  { from, to }: Pick<Segment, 'from' | 'to'>,
  box: Box,
): readonly Place[] | null {
  const [dx, dy] = [to.xMm - from.xMm, to.yMm - from.yMm]
  let [begin, end] = [0, 1]
  for (const [step, room] of [
    [-dx, from.xMm - box.xMm],
    [dx, box.xMm + box.widthMm - from.xMm],
    [-dy, from.yMm - box.yMm],
    [dy, box.yMm + box.heightMm - from.yMm],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null
    } else if (step < 0) begin = Math.max(begin, room / step)
    else end = Math.min(end, room / step)
  }
  if (begin >= end) return null
  const at = (part: number): Place => ({ xMm: from.xMm + part * dx, yMm: from.yMm + part * dy })
  return [at(begin), at(end)]
}
