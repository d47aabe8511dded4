/** Lines and curves on a page, in mm from its top left corner, y downward. */
export type Path = readonly PathPart[]

export type PathPart =
  | Readonly<{ kind: 'move' | 'line'; xMm: number; yMm: number }>
  /** A cubic Bézier curve by its two handles and its end. */
  | Readonly<{
      kind: 'curve'
      firstXMm: number
      firstYMm: number
      secondXMm: number
      secondYMm: number
      xMm: number
      yMm: number
    }>
  | Readonly<{ kind: 'close' }>

export type Place = Readonly<{ xMm: number; yMm: number }>

/** x' = a x + c y + eMm, y' = b x + d y + fMm. */
export type Transform = Readonly<{
  a: number
  b: number
  c: number
  d: number
  eMm: number
  fMm: number
}>

/** Handle of a quarter circle's Bézier curve, in radii: off the circle by 0.027 % at most. */
const HANDLE = (4 / 3) * (Math.SQRT2 - 1)

export function rectanglePath(
  of: Readonly<{ xMm: number; yMm: number; widthMm: number; heightMm: number }>,
): Path {
  const { xMm, yMm, widthMm, heightMm } = of
  const [right, bottom] = [xMm + widthMm, yMm + heightMm]
  return [
    { kind: 'move', xMm, yMm },
    { kind: 'line', xMm: right, yMm },
    { kind: 'line', xMm: right, yMm: bottom },
    { kind: 'line', xMm, yMm: bottom },
    { kind: 'close' },
  ]
}

export function circlePath({ xMm, yMm, radiusMm }: Place & Readonly<{ radiusMm: number }>): Path {
  const quarters = [
    [1, 0, 0, 1],
    [0, 1, -1, 0],
    [-1, 0, 0, -1],
    [0, -1, 1, 0],
  ] as const
  return [
    { kind: 'move', xMm: xMm + radiusMm, yMm },
    ...quarters.map(([x0, y0, x1, y1]) => ({
      kind: 'curve' as const,
      firstXMm: xMm + radiusMm * (x0 + HANDLE * x1),
      firstYMm: yMm + radiusMm * (y0 + HANDLE * y1),
      secondXMm: xMm + radiusMm * (x1 + HANDLE * x0),
      secondYMm: yMm + radiusMm * (y1 + HANDLE * y0),
      xMm: xMm + radiusMm * x1,
      yMm: yMm + radiusMm * y1,
    })),
    { kind: 'close' },
  ]
}

/** Straight from point to point. */
export function linePath(points: readonly Place[]): Path {
  return points.map(({ xMm, yMm }, at) => ({ kind: at === 0 ? 'move' : 'line', xMm, yMm }))
}

export const UNMOVED: Transform = { a: 1, b: 0, c: 0, d: 1, eMm: 0, fMm: 0 }

export function moveBy({ xMm, yMm }: Place): Transform {
  return { ...UNMOVED, eMm: xMm, fMm: yMm }
}

/** A turn clockwise, as seen on the page, about a place; quarter turns are exact. */
export function turnBy({ deg, xMm, yMm }: Place & Readonly<{ deg: number }>): Transform {
  const quarters = deg / 90
  const whole = Number.isInteger(quarters)
  const cos = whole
    ? ([1, 0, -1, 0][((quarters % 4) + 4) % 4] ?? 1)
    : Math.cos((deg * Math.PI) / 180)
  const sin = whole
    ? ([0, 1, 0, -1][((quarters % 4) + 4) % 4] ?? 0)
    : Math.sin((deg * Math.PI) / 180)
  return {
    a: cos,
    b: sin,
    c: -sin,
    d: cos,
    eMm: xMm - cos * xMm + sin * yMm,
    fMm: yMm - sin * xMm - cos * yMm,
  }
}

/** `inner` first, then `outer`. */
export function joined(outer: Transform, inner: Transform): Transform {
  const { xMm: eMm, yMm: fMm } = moved({ xMm: inner.eMm, yMm: inner.fMm }, outer)
  return {
    a: outer.a * inner.a + outer.c * inner.b,
    b: outer.b * inner.a + outer.d * inner.b,
    c: outer.a * inner.c + outer.c * inner.d,
    d: outer.b * inner.c + outer.d * inner.d,
    eMm,
    fMm,
  }
}

export function moved({ xMm, yMm }: Place, by: Transform): Place {
  return { xMm: by.a * xMm + by.c * yMm + by.eMm, yMm: by.b * xMm + by.d * yMm + by.fMm }
}
