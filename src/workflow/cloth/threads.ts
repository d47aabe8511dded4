export type ThreadPoint = Readonly<{ xPx: number; yPx: number }>

/** A piece of thread: straight from point to point, or in one curve to its end by way of `bend`. */
export type Thread = Readonly<{ points: readonly ThreadPoint[]; bend?: ThreadPoint }>

/** Threads as SVG draws them, to a tenth of a pixel. */
export function svgPath(threads: readonly Thread[]): string {
  return threads
    .map(({ points: [first, ...others], bend }) => {
      if (first === undefined) return ''
      const on = bend === undefined ? 'L' : `Q${written(bend)} `
      return `M${written(first)}${others.map((point) => `${on}${written(point)}`).join('')}`
    })
    .join('')
}

function written({ xPx, yPx }: ThreadPoint): string {
  return `${tenths(xPx)} ${tenths(yPx)}`
}

function tenths(value: number): string {
  return String(Math.round(value * 10) / 10)
}
