import type { Finding } from '../../core/inspection/findings.ts'
import type { PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { circlePath } from '../../formats/pagePath.ts'
import { line } from './lines.ts'
import type { Box } from './shapes.ts'

const PEN = 0.6
const CLEAR = 1.4
const LABEL_MM = 2.9

/** Rings about the places, each with its number in a disc on the ring, over the picture. */
export function ringed(
  findings: readonly Finding[],
  { picture, letters }: Readonly<{ picture: Box; letters: Letters }>,
): readonly PageItem[] {
  const rings = findings.map(({ xMm, yMm, areaMm2 }) => {
    const radiusMm = Math.max(3, Math.sqrt(areaMm2 / Math.PI) + 1.5)
    return { xMm: picture.xMm + xMm, yMm: picture.yMm + yMm, radiusMm }
  })
  return [
    ...rings.flatMap((ring): readonly PageItem[] => [
      { kind: 'stroke', path: circlePath(ring), widthMm: PEN + CLEAR, tintShare: 0 },
      { kind: 'stroke', path: circlePath(ring), widthMm: PEN },
    ]),
    ...rings.flatMap((ring, at) => label(ring, String(at + 1), { picture, letters })),
  ]
}

function label(
  { xMm, yMm, radiusMm }: Readonly<{ xMm: number; yMm: number; radiusMm: number }>,
  text: string,
  { picture, letters }: Readonly<{ picture: Box; letters: Letters }>,
): readonly PageItem[] {
  // towards the middle of the picture, so that it never falls off the sheet
  const side = xMm > picture.xMm + picture.widthMm / 2 ? -1 : 1
  const up = yMm > picture.yMm + picture.heightMm / 2 ? -1 : 1
  const reach = (radiusMm + LABEL_MM * 0.6) * Math.SQRT1_2
  const disc = { xMm: xMm + side * reach, yMm: yMm + up * reach, radiusMm: LABEL_MM }
  return [
    { kind: 'fill', path: circlePath(disc), tintShare: 0 },
    { kind: 'stroke', path: circlePath(disc), widthMm: 0.4 },
    ...line(letters, text, {
      face: 'bold',
      sizeMm: 3.8,
      xMm: disc.xMm,
      yMm: disc.yMm + 1.35,
      anchor: 'middle',
    }),
  ]
}
