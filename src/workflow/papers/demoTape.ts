import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { turnBy } from '../../formats/pagePath.ts'
import { fittingMm, line } from './lines.ts'
import { polygon } from './shapes.ts'

/** A strip of tape with torn ends that says whose shop is invented; its right end and top at a place. */
export function demoTape(
  name: string,
  {
    letters,
    unitMm,
    rightMm,
    yMm,
  }: Readonly<{ letters: Letters; unitMm: number; rightMm: number; yMm: number }>,
): readonly PageItem[] {
  const words = `DEMO SHOP: ${name}, invented`
  const sizeMm = fittingMm(letters, [words], {
    face: 'bold',
    sizeMm: 3.95 * unitMm,
    widthMm: 84 * unitMm,
  })
  const widthMm = letters.widthMm(words, { face: 'bold', sizeMm }) + 8 * unitMm
  const heightMm = 7.6 * unitMm
  const left = rightMm - widthMm
  const torn = (xMm: number, toward: number): readonly { xMm: number; yMm: number }[] =>
    Array.from({ length: 7 }, (_, at) => ({
      xMm: xMm + toward * (at % 2) * 1.1 * unitMm,
      yMm: yMm + (at * heightMm) / 6,
    }))
  const outline = polygon([...torn(left, 1), ...torn(rightMm, -1).toReversed()])
  return [
    {
      kind: 'group',
      transform: turnBy({ deg: -1, xMm: rightMm - widthMm / 2, yMm: yMm + heightMm / 2 }),
      items: [
        { kind: 'stroke', widthMm: 0.35 * unitMm, corners: 'round', path: outline },
        ...line(letters, words, {
          face: 'bold',
          sizeMm,
          xMm: rightMm - widthMm / 2,
          yMm: yMm + heightMm / 2 + 0.33 * sizeMm,
          anchor: 'middle',
        }),
      ],
    },
  ]
}
