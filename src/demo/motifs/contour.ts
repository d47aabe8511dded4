import type { Canvas } from '../canvas.ts'
import { knots, rowsOf, type Written } from '../curve.ts'
import { rub } from '../marks/pencil.ts'
import type { Random } from '../random.ts'
import { depthAt } from '../shape.ts'
import type { Thing } from './still.ts'

/** Knots left out are half width 0.3 and load 0.8. */
export type Line = (rows: Written, passes?: number) => void

/** A drawn line: each pass strays a little from the one before. */
export function lineOf(canvas: Canvas, random: Random, hand = 1.6): Line {
  return (rows, passes = 1) => {
    for (let pass = 0; pass < passes; pass += 1) {
      const path = rowsOf(rows).map(([x, y, halfWidthMm = 0.3, load = 0.8]) => {
        return [
          x + random.around(0, 0.22),
          y + random.around(0, 0.22),
          halfWidthMm,
          hand * load * random.between(0.8, 1.1),
        ]
      })
      rub(canvas, knots(path), { seed: random.seed() })
    }
  }
}

/** The outline in short passes: pressed on the shadow side, nearly lost in the light. */
export function contour(
  canvas: Canvas,
  { form, front }: Readonly<{ form: Thing; front: readonly Thing[] }>,
  random: Random,
): void {
  const { outline } = form
  const middle = {
    xMm: (form.box.leftMm + form.box.rightMm) / 2,
    yMm: (form.box.topMm + form.box.bottomMm) / 2,
  }
  const tall = Math.max(form.box.bottomMm - form.box.topMm, form.box.rightMm - form.box.leftMm) / 2
  const line = lineOf(canvas, random)
  for (let pass = 0; pass < 2; pass += 1) {
    let at = Math.floor(random.between(0, 8))
    while (at < outline.length) {
      const length = Math.floor(random.between(8, 18))
      const rows: (readonly number[])[] = []
      for (let step = at; step <= at + length; step += 2) {
        const point = outline[step % outline.length]
        if (front.some(({ depths }) => depthAt(depths, point.xMm, point.yMm) > 0.4)) break
        const shade = ((point.xMm - middle.xMm) * 0.66 + (point.yMm - middle.yMm) * 0.75) / tall
        rows.push([point.xMm, point.yMm, 0.26 + 0.12 * shade, 0.66 + 0.34 * shade])
      }
      if (rows.length > 1) line(rows)
      at += length - Math.floor(random.between(0, 3))
    }
  }
}
