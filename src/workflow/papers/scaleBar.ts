import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import type { Place } from '../../formats/pagePath.ts'
import { line } from './lines.ts'
import { filledBox } from './shapes.ts'

const LENGTH_MM = 100
const PEN_MM = 0.25

/** A hundred millimetres from the middle of the first tick to the middle of the last. */
export function scaleBar(
  { xMm, yMm }: Place,
  { letters, sizeMm }: Readonly<{ letters: Letters; sizeMm: number }>,
): readonly PageItem[] {
  const base = yMm + 5
  const ticks = Array.from({ length: LENGTH_MM + 1 }, (_, at) => {
    const heightMm = at % 50 === 0 ? 5 : at % 10 === 0 ? 3.4 : at % 5 === 0 ? 2.4 : 1.6
    return filledBox({
      xMm: xMm + at - PEN_MM / 2,
      yMm: base - heightMm,
      widthMm: PEN_MM,
      heightMm,
    })
  })
  const numbers = [0, 50, LENGTH_MM].flatMap((at) =>
    line(letters, String(at), {
      face: 'plain',
      sizeMm,
      xMm: xMm + at,
      yMm: base + 1.2 * sizeMm,
      anchor: 'middle',
    }),
  )
  const half = letters.widthMm(String(LENGTH_MM), { face: 'plain', sizeMm }) / 2
  const unit = line(letters, ' mm', {
    face: 'plain',
    sizeMm,
    xMm: xMm + LENGTH_MM + half,
    yMm: base + 1.2 * sizeMm,
  })
  const beam = {
    xMm: xMm - PEN_MM / 2,
    yMm: base - PEN_MM,
    widthMm: LENGTH_MM + PEN_MM,
    heightMm: PEN_MM,
  }
  return [filledBox(beam), ...ticks, ...numbers, ...unit]
}
