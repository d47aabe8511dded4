/** A picture of one channel in memory, row by row. */
export type Plane = Readonly<{
  widthPx: number
  heightPx: number
  values: Float32Array
}>

export function planeOf(widthPx: number, heightPx: number): Plane {
  return { widthPx, heightPx, values: new Float32Array(widthPx * heightPx) }
}

/** Half the size: means of 2 x 2; a last odd row or column falls away. */
export function halved(plane: Plane): Plane {
  const { widthPx, values } = plane
  const half = planeOf(plane.widthPx >> 1, plane.heightPx >> 1)
  for (let y = 0, to = 0; y < half.heightPx; y += 1) {
    let from = 2 * y * widthPx
    for (let x = 0; x < half.widthPx; x += 1, to += 1, from += 2) {
      half.values[to] =
        (values[from] + values[from + 1] + values[from + widthPx] + values[from + widthPx + 1]) / 4
    }
  }
  return half
}

/** The plane and its halves, each half the one before, down to a longer side of `leastPx` or more. */
export function halvings(plane: Plane, leastPx: number): readonly Plane[] {
  const planes = [plane]
  for (let last = plane; Math.max(last.widthPx, last.heightPx) >= 2 * leastPx; ) {
    last = halved(last)
    planes.push(last)
  }
  return planes
}

/** Shrunk to any size by the mean of what each new pixel covers. */
export function shrunk(plane: Plane, widthPx: number, heightPx: number): Plane {
  const across = alongRows(plane, widthPx)
  return turned(alongRows(turned(across), heightPx))
}

function alongRows({ widthPx, heightPx, values }: Plane, toPx: number): Plane {
  const out = planeOf(toPx, heightPx)
  const ratio = widthPx / toPx
  const sums = new Float64Array(widthPx + 1)
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) sums[x + 1] = sums[x] + values[y * widthPx + x]
    const until = (x: number): number => {
      const whole = Math.min(widthPx - 1, Math.floor(x))
      return sums[whole] + (x - whole) * values[y * widthPx + whole]
    }
    for (let x = 0; x < toPx; x += 1) {
      out.values[y * toPx + x] = (until((x + 1) * ratio) - until(x * ratio)) / ratio
    }
  }
  return out
}

function turned({ widthPx, heightPx, values }: Plane): Plane {
  const out = planeOf(heightPx, widthPx)
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) out.values[x * heightPx + y] = values[y * widthPx + x]
  }
  return out
}

/** Means over squares of 2 reach + 1 pixels, cut at the edge. */
export function boxMeans(plane: Plane, reach: number): Plane {
  return turned(meansAlong(turned(meansAlong(plane, reach)), reach))
}

function meansAlong({ widthPx, heightPx, values }: Plane, reach: number): Plane {
  const out = planeOf(widthPx, heightPx)
  for (let y = 0; y < heightPx; y += 1) {
    const row = y * widthPx
    let sum = 0
    for (let x = 0; x < Math.min(reach, widthPx); x += 1) sum += values[row + x]
    for (let x = 0; x < widthPx; x += 1) {
      if (x + reach < widthPx) sum += values[row + x + reach]
      if (x - reach - 1 >= 0) sum -= values[row + x - reach - 1]
      const count = Math.min(widthPx - 1, x + reach) - Math.max(0, x - reach) + 1
      out.values[row + x] = sum / count
    }
  }
  return out
}

/** Pixels that are looked at together: where all are alike, a blur changes nothing. */
const SEGMENT = 64

/** Blurred in place by a Gaussian of so many pixels (sd); the edge's own value goes on outside. */
export function blur(plane: Plane, sdPx: number): void {
  if (sdPx < 0.2) return
  const reach = Math.ceil(2.6 * sdPx)
  const weights = gaussian(sdPx, reach)
  blurColumns(plane, { weights, reach, alike: blurRows(plane, { weights, reach }) })
}

type Kernel = Readonly<{ weights: Float64Array; reach: number }>

/** @returns the one value of each segment of each row, NaN where it has several */
function blurRows({ widthPx, heightPx, values }: Plane, { weights, reach }: Kernel): Float32Array {
  const segments = Math.ceil(widthPx / SEGMENT)
  const alike = new Float32Array(segments * heightPx)
  const padded = new Float32Array(widthPx + 2 * reach)
  for (let y = 0; y < heightPx; y += 1) {
    const row = values.subarray(y * widthPx, (y + 1) * widthPx)
    padded.fill(row[0], 0, reach)
    padded.set(row, reach)
    padded.fill(row[widthPx - 1], reach + widthPx)
    for (let segment = 0; segment < segments; segment += 1) {
      const from = segment * SEGMENT
      const to = Math.min(widthPx, from + SEGMENT)
      const value = padded[from]
      let same = from
      while (same < to + 2 * reach && padded[same] === value) same += 1
      const isFlat = same === to + 2 * reach
      alike[y * segments + segment] = isFlat ? value : Number.NaN
      for (let x = isFlat ? to : from; x < to; x += 1) {
        let sum = weights[0] * padded[x + reach]
        for (let k = 1; k <= reach; k += 1)
          sum += weights[k] * (padded[x + reach - k] + padded[x + reach + k])
        row[x] = sum
      }
    }
  }
  return alike
}

/** Rows are kept in a ring until nobody needs them unblurred. */
function blurColumns(
  { widthPx, heightPx, values }: Plane,
  { weights, reach, alike }: Kernel & Readonly<{ alike: Float32Array }>,
): void {
  const rows = 2 * reach + 1
  const segments = Math.ceil(widthPx / SEGMENT)
  const ring = Array.from({ length: rows }, () => new Float32Array(widthPx))
  const load = (y: number): void => {
    const from = Math.min(heightPx - 1, Math.max(0, y)) * widthPx
    // a row past the end repeats the last one, which may be blurred by now
    const kept = y > heightPx - 1 ? ring[(heightPx - 1 + reach) % rows] : undefined
    ring[(y + reach) % rows].set(kept ?? values.subarray(from, from + widthPx))
  }
  const isFlat = (y: number, segment: number): boolean => {
    const value = alike[y * segments + segment]
    const last = Math.min(heightPx - 1, y + reach)
    for (let row = Math.max(0, y - reach); row <= last; row += 1) {
      if (alike[row * segments + segment] !== value) return false
    }
    return true
  }
  for (let y = -reach; y < reach; y += 1) load(y)
  for (let y = 0; y < heightPx; y += 1) {
    load(y + reach)
    const out = values.subarray(y * widthPx, (y + 1) * widthPx)
    const middle = ring[(y + reach) % rows]
    for (let segment = 0; segment < segments; segment += 1) {
      if (isFlat(y, segment)) continue
      const from = segment * SEGMENT
      const to = Math.min(widthPx, from + SEGMENT)
      for (let x = from; x < to; x += 1) out[x] = weights[0] * middle[x]
      for (let k = 1; k <= reach; k += 1) {
        const above = ring[(y + reach - k) % rows]
        const below = ring[(y + reach + k) % rows]
        const weight = weights[k]
        for (let x = from; x < to; x += 1) out[x] += weight * (above[x] + below[x])
      }
    }
  }
}

function gaussian(sdPx: number, reach: number): Float64Array {
  const weights = new Float64Array(reach + 1)
  let sum = 0
  for (let k = 0; k <= reach; k += 1) {
    weights[k] = Math.exp(-(k * k) / (2 * sdPx * sdPx))
    sum += k === 0 ? weights[k] : 2 * weights[k]
  }
  return weights.map((weight) => weight / sum)
}
