import { scrambled, turnsOf } from '../kernels/leakTiles.ts'

/**
 * Complex Fourier transforms in place of `high` rows of `wide` 32-bit floats, the spectrum left in
 * scrambled order: forward by decimation in frequency, back by decimation in time, so that nothing
 * is ever reordered between a forward and a backward transform. Radix 4, with one radix-2 pass
 * where a side is no power of 4; columns first. Every sum and product is rounded to 32 bits.
 *
 * @source cooley-tukey
 */
export type FourierTile = Readonly<{
  high: number
  wide: number
  re: Float32Array
  im: Float32Array
}>

export function fourierTile({ high, wide }: Readonly<{ high: number; wide: number }>): FourierTile {
  const size = high * wide
  return { high, wide, re: new Float32Array(size), im: new Float32Array(size) }
}

/**
 * Spectrum of an even kernel, which is real: Σ w(y, x) cos(2π v y / high) cos(2π u x / wide).
 *
 * @param weights (2 reachPx + 1)² of them, alike about both axes
 * @returns high rows of wide frequencies from 0
 */
export function evenSpectrum(
  { reachPx, weights }: Readonly<{ reachPx: number; weights: Float64Array }>,
  { high, wide }: Readonly<{ high: number; wide: number }>,
): Float64Array {
  const across = 2 * reachPx + 1
  const [halfHigh, halfWide] = [high / 2 + 1, wide / 2 + 1]
  const along = new Float64Array((reachPx + 1) * halfWide)
  const cos = new Float64Array(reachPx + 1)
  for (let u = 0; u < halfWide; u += 1) {
    bothSides(cos, (2 * Math.PI * u) / wide)
    for (let y = 0; y <= reachPx; y += 1) {
      const row = (y + reachPx) * across + reachPx
      let sum = 0
      for (let x = 0; x <= reachPx; x += 1) sum += weights[row + x] * cos[x]
      along[y * halfWide + u] = sum
    }
  }
  const spectrum = new Float64Array(high * wide)
  for (let v = 0; v < halfHigh; v += 1) {
    bothSides(cos, (2 * Math.PI * v) / high)
    const row = v * wide
    for (let y = 0; y <= reachPx; y += 1) {
      const [from, factor] = [y * halfWide, cos[y]]
      for (let u = 0; u < halfWide; u += 1) spectrum[row + u] += along[from + u] * factor
    }
    for (let u = halfWide; u < wide; u += 1) spectrum[row + u] = spectrum[row + wide - u]
    if (v > 0) spectrum.copyWithin((high - v) * wide, row, row + wide)
  }
  return spectrum
}

/** Both sides' share of each term: 1, then 2 cos(angle), 2 cos(2 angle) … */
function bothSides(cos: Float64Array, angle: number): void {
  cos[0] = 1
  for (let k = 1; k < cos.length; k += 1) cos[k] = 2 * Math.cos(k * angle)
}

/**
 * Two real pictures, as real and imaginary part, through an even filter.
 *
 * @param filter real, high rows of wide frequencies from 0, over high · wide
 */
export function throughFilter(tile: FourierTile, filter: Float32Array): void {
  const { high, wide, re, im } = tile
  const columns = linesOf(high, { step: wide })
  const rows = linesOf(wide, { step: 1 })
  for (let x = 0; x < wide; x += 1) columns.forward(re, im, x)
  for (let y = 0; y < high; y += 1) rows.forward(re, im, y * wide)
  const [down, along] = [scrambled(high), scrambled(wide)]
  for (let y = 0; y < high; y += 1) {
    for (let x = 0; x < wide; x += 1) {
      const factor = filter[down[y] * wide + along[x]]
      re[y * wide + x] *= factor
      im[y * wide + x] *= factor
    }
  }
  for (let y = 0; y < high; y += 1) rows.backward(re, im, y * wide)
  for (let x = 0; x < wide; x += 1) columns.backward(re, im, x)
}

type Pass = (re: Float32Array, im: Float32Array, start: number) => void

/** Transforms of lines of so many numbers, each `step` places from the one before. */
function linesOf(
  side: number,
  { step }: Readonly<{ step: number }>,
): Readonly<{ forward: Pass; backward: Pass }> {
  const { cos, sin } = turnsOf(side)
  const spans: number[] = []
  for (let span = side; span > 1; span = span === 8 ? 4 : span / 4) spans.push(span)

  const quarter = (re: Float32Array, im: Float32Array, start: number, span: number): void => {
    const hop = (span / 4) * step
    for (let j = 0; j < span / 4; j += 1) {
      const [k1, k2, k3] = [1, 2, 3].map((power) => (power * j * side) / span)
      for (let at = j; at < side; at += span) {
        const a = start + at * step
        const [b, c, d] = [a + hop, a + 2 * hop, a + 3 * hop]
        const t0r = f(re[a] + re[c])
        const t0i = f(im[a] + im[c])
        const t1r = f(re[a] - re[c])
        const t1i = f(im[a] - im[c])
        const t2r = f(re[b] + re[d])
        const t2i = f(im[b] + im[d])
        const t3r = f(re[b] - re[d])
        const t3i = f(im[b] - im[d])
        re[a] = t0r + t2r
        im[a] = t0i + t2i
        const xr = f(t1r + t3i)
        const xi = f(t1i - t3r)
        re[b] = f(xr * cos[k1]) - f(xi * sin[k1])
        im[b] = f(xr * sin[k1]) + f(xi * cos[k1])
        const yr = f(t0r - t2r)
        const yi = f(t0i - t2i)
        re[c] = f(yr * cos[k2]) - f(yi * sin[k2])
        im[c] = f(yr * sin[k2]) + f(yi * cos[k2])
        const zr = f(t1r - t3i)
        const zi = f(t1i + t3r)
        re[d] = f(zr * cos[k3]) - f(zi * sin[k3])
        im[d] = f(zr * sin[k3]) + f(zi * cos[k3])
      }
    }
  }

  const halve = (re: Float32Array, im: Float32Array, start: number): void => {
    for (let j = 0; j < 4; j += 1) {
      const k = (j * side) / 8
      for (let at = j; at < side; at += 8) {
        const a = start + at * step
        const b = a + 4 * step
        const xr = f(re[a] - re[b])
        const xi = f(im[a] - im[b])
        re[a] += re[b]
        im[a] += im[b]
        re[b] = f(xr * cos[k]) - f(xi * sin[k])
        im[b] = f(xr * sin[k]) + f(xi * cos[k])
      }
    }
  }

  /** `quarter` undone: turned back, then the butterfly with the other sign. */
  const join = (re: Float32Array, im: Float32Array, start: number, span: number): void => {
    const hop = (span / 4) * step
    for (let j = 0; j < span / 4; j += 1) {
      const [k1, k2, k3] = [1, 2, 3].map((power) => (power * j * side) / span)
      for (let at = j; at < side; at += span) {
        const a = start + at * step
        const [b, c, d] = [a + hop, a + 2 * hop, a + 3 * hop]
        const br = f(f(re[b] * cos[k1]) + f(im[b] * sin[k1]))
        const bi = f(f(im[b] * cos[k1]) - f(re[b] * sin[k1]))
        const cr = f(f(re[c] * cos[k2]) + f(im[c] * sin[k2]))
        const ci = f(f(im[c] * cos[k2]) - f(re[c] * sin[k2]))
        const dr = f(f(re[d] * cos[k3]) + f(im[d] * sin[k3]))
        const di = f(f(im[d] * cos[k3]) - f(re[d] * sin[k3]))
        const t0r = f(re[a] + cr)
        const t0i = f(im[a] + ci)
        const t1r = f(re[a] - cr)
        const t1i = f(im[a] - ci)
        const t2r = f(br + dr)
        const t2i = f(bi + di)
        const t3r = f(br - dr)
        const t3i = f(bi - di)
        re[a] = t0r + t2r
        im[a] = t0i + t2i
        re[b] = t1r - t3i
        im[b] = t1i + t3r
        re[c] = t0r - t2r
        im[c] = t0i - t2i
        re[d] = t1r + t3i
        im[d] = t1i - t3r
      }
    }
  }

  const joinPairs = (re: Float32Array, im: Float32Array, start: number): void => {
    for (let j = 0; j < 4; j += 1) {
      const k = (j * side) / 8
      for (let at = j; at < side; at += 8) {
        const a = start + at * step
        const b = a + 4 * step
        const xr = f(f(re[b] * cos[k]) + f(im[b] * sin[k]))
        const xi = f(f(im[b] * cos[k]) - f(re[b] * sin[k]))
        re[b] = re[a] - xr
        im[b] = im[a] - xi
        re[a] += xr
        im[a] += xi
      }
    }
  }

  return {
    forward: (re, im, start) => {
      for (const span of spans) {
        if (span === 8) halve(re, im, start)
        else quarter(re, im, start, span)
      }
    },
    backward: (re, im, start) => {
      for (const span of spans.toReversed()) {
        if (span === 8) joinPairs(re, im, start)
        else join(re, im, start, span)
      }
    },
  }
}

const f = Math.fround
