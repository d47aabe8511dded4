import type { Path } from '../../formats/pagePath.ts'
import { hand } from '../cloth/wobble.ts'
import { type Box, polygon } from './shapes.ts'

const HAIRS = 19

/** How far the brush is spread, in parts of the height, where it has come so far of its way. */
function spread(along: number): number {
  const pressed = 0.5 + 0.5 * Math.sin(Math.min(1, along / 0.42) * (Math.PI / 2))
  return along < 0.6 ? pressed : pressed * (1 - 0.6 * (along - 0.6))
}

/** The first part of the way on which hardly a hair has run dry. */
const FULL = 0.3

type Span = Readonly<{ from: number; to: number }>

/**
 * One stroke of a brush that runs dry: full where it was set down, torn into hairs where it was
 * lifted. The same every time.
 */
export function brushMark({ xMm, yMm, widthMm, heightMm }: Box): Path {
  const { next, wave } = hand(23)
  const rise = wave(0.05)
  return Array.from({ length: HAIRS }, (_, hair) => {
    const row = (hair + 0.5) / HAIRS - 0.5
    const bent = wave(0.012)
    const weight = 0.85 + 0.6 * next()
    return wetSpans(row, next).flatMap(({ from, to }) => {
      const thick = (along: number): number => {
        const tail = Math.min(1, (to - along) / 0.16)
        const head = from > FULL ? Math.min(1, (along - from) / 0.05) : 1
        const loose = along < FULL ? 1.35 : Math.max(0.7, 1.35 - 0.9 * (along - FULL)) * weight
        return (Math.max(0.1, Math.min(tail, head)) * loose * spread(along)) / HAIRS
      }
      const steps = Math.max(2, Math.ceil((to - from) * 12))
      const side = (sign: number): { xMm: number; yMm: number }[] =>
        Array.from({ length: steps + 1 }, (_point, at) => {
          const along = from + ((to - from) * at) / steps
          const middle = 0.5 + row * spread(along) + rise(90 * along) + bent(260 * along)
          return {
            xMm: xMm + along * widthMm,
            yMm: yMm + (middle + (sign * thick(along)) / 2) * heightMm,
          }
        })
      return polygon([...side(-1), ...side(1).reverse()])
    })
  }).flat()
}

/** Where a hair leaves ink, in parts of the way: it may run dry, and take again. */
function wetSpans(row: number, next: () => number): readonly Span[] {
  const to = 0.72 + 0.28 * next() - 0.4 * row * row
  const spans: Span[] = []
  let from = 0.025 * next() + 0.12 * row * row
  for (let tries = 0; tries < 2; tries++) {
    const dry = Math.max(from + 0.06, FULL + 0.5 * next())
    const again = dry + 0.05 + 0.13 * next()
    if (again > to - 0.05 || next() < 0.22) continue
    spans.push({ from, to: dry })
    from = again
  }
  return [...spans, { from, to }]
}
