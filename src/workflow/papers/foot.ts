import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { linePath, type Place, rectanglePath } from '../../formats/pagePath.ts'
import { fittingMm, line } from './lines.ts'
import { filledBox } from './shapes.ts'

/** Whose paper it is; a demo shop is named as one on every sheet. */
export type PaperShop = Readonly<{ name: string; demo: boolean }>

/** The last line of a paper: who made it, for whom, and what it is. */
export function foot(
  { shop, about }: Readonly<{ shop: PaperShop | null; about: string }>,
  {
    letters,
    sizeMm,
    leftMm,
    rightMm,
    yMm,
  }: Readonly<{ letters: Letters; sizeMm: number; leftMm: number; rightMm: number; yMm: number }>,
): readonly PageItem[] {
  const rule = { xMm: leftMm, yMm: yMm - 1.7 * sizeMm, widthMm: rightMm - leftMm, heightMm: 0.3 }
  const words = shopWords(shop)
  const mark = 1.15 * sizeMm
  const room = rightMm - leftMm - 1.6 * mark - 3
  // both on one line, whatever their length
  const size = fittingMm(letters, [`${words} ${about}`], { face: 'plain', sizeMm, widthMm: room })
  return [
    filledBox(rule),
    ...screenMark({ xMm: leftMm, yMm: yMm - 0.9 * mark }, mark),
    ...line(letters, words, { face: 'plain', sizeMm: size, xMm: leftMm + 1.6 * mark, yMm }),
    ...line(letters, about, { face: 'plain', sizeMm: size, xMm: rightMm, yMm, anchor: 'end' }),
  ]
}

function shopWords(shop: PaperShop | null): string {
  if (shop === null) return 'Yellowroom.'
  return shop.demo ? `Yellowroom. Demo shop: ${shop.name}, invented.` : `Yellowroom. ${shop.name}.`
}

/** A small screen: its frame, mitred, and its fabric. */
function screenMark({ xMm, yMm }: Place, sideMm: number): readonly PageItem[] {
  const pen = 0.055 * sideMm
  const inner = 0.24 * sideMm
  const [right, bottom] = [xMm + sideMm, yMm + sideMm]
  const outline = (inset: number): PageItem => ({
    kind: 'stroke',
    widthMm: pen,
    path: rectanglePath({
      xMm: xMm + inset,
      yMm: yMm + inset,
      widthMm: sideMm - 2 * inset,
      heightMm: sideMm - 2 * inset,
    }),
  })
  const stroke = (points: readonly (readonly [number, number])[]): PageItem => ({
    kind: 'stroke',
    widthMm: pen,
    path: linePath(points.map(([x, y]) => ({ xMm: x, yMm: y }))),
  })
  const threads = [1, 2, 3].map((at) => inner + (at * (sideMm - 2 * inner)) / 4)
  return [
    outline(pen / 2),
    outline(inner),
    stroke([
      [xMm, yMm],
      [xMm + inner, yMm + inner],
    ]),
    stroke([
      [right, yMm],
      [right - inner, yMm + inner],
    ]),
    stroke([
      [right, bottom],
      [right - inner, bottom - inner],
    ]),
    stroke([
      [xMm, bottom],
      [xMm + inner, bottom - inner],
    ]),
    ...threads.flatMap((at) => [
      stroke([
        [xMm + at, yMm + inner],
        [xMm + at, bottom - inner],
      ]),
      stroke([
        [xMm + inner, yMm + at],
        [right - inner, yMm + at],
      ]),
    ]),
  ]
}
