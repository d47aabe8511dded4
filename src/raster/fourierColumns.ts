import type { FourierSquare } from './fourier.ts'

/** One radix-4 pass down all columns: rows at + 0, 1, 2, 3 quarters of the span. */
export function quarterColumns(
  { side, stride, re, im, cos, sin }: FourierSquare,
  span: number,
): void {
  const quarter = span >> 2
  const turn = side / span
  const hop = quarter * stride
  for (let base = 0; base < side; base += span) {
    for (let j = 0; j < quarter; j += 1) {
      const w1r = cos[j * turn]
      const w1i = sin[j * turn]
      const w2r = cos[2 * j * turn]
      const w2i = sin[2 * j * turn]
      const w3r = cos[3 * j * turn]
      const w3i = sin[3 * j * turn]
      let a = (base + j) * stride
      const end = a + side
      let b = a + hop
      let c = b + hop
      let d = c + hop
      for (; a < end; a += 1, b += 1, c += 1, d += 1) {
        const ar = re[a]
        const ai = im[a]
        const br = re[b]
        const bi = im[b]
        const cr = re[c]
        const ci = im[c]
        const dr = re[d]
        const di = im[d]
        const t0r = ar + cr
        const t0i = ai + ci
        const t1r = ar - cr
        const t1i = ai - ci
        const t2r = br + dr
        const t2i = bi + di
        const t3r = br - dr
        const t3i = bi - di
        re[a] = t0r + t2r
        im[a] = t0i + t2i
        const xr = t1r + t3i
        const xi = t1i - t3r
        re[b] = xr * w1r - xi * w1i
        im[b] = xr * w1i + xi * w1r
        const yr = t0r - t2r
        const yi = t0i - t2i
        re[c] = yr * w2r - yi * w2i
        im[c] = yr * w2i + yi * w2r
        const zr = t1r - t3i
        const zi = t1i + t3r
        re[d] = zr * w3r - zi * w3i
        im[d] = zr * w3i + zi * w3r
      }
    }
  }
}

/** The pass above undone: turn back, then the butterfly with the other sign. */
export function joinColumns({ side, stride, re, im, cos, sin }: FourierSquare, span: number): void {
  const quarter = span >> 2
  const turn = side / span
  const hop = quarter * stride
  for (let base = 0; base < side; base += span) {
    for (let j = 0; j < quarter; j += 1) {
      const w1r = cos[j * turn]
      const w1i = -sin[j * turn]
      const w2r = cos[2 * j * turn]
      const w2i = -sin[2 * j * turn]
      const w3r = cos[3 * j * turn]
      const w3i = -sin[3 * j * turn]
      let a = (base + j) * stride
      const end = a + side
      let b = a + hop
      let c = b + hop
      let d = c + hop
      for (; a < end; a += 1, b += 1, c += 1, d += 1) {
        const ar = re[a]
        const ai = im[a]
        const pr = re[b]
        const pi = im[b]
        const qr = re[c]
        const qi = im[c]
        const sr = re[d]
        const si = im[d]
        const br = pr * w1r - pi * w1i
        const bi = pr * w1i + pi * w1r
        const cr = qr * w2r - qi * w2i
        const ci = qr * w2i + qi * w2r
        const dr = sr * w3r - si * w3i
        const di = sr * w3i + si * w3r
        const t0r = ar + cr
        const t0i = ai + ci
        const t1r = ar - cr
        const t1i = ai - ci
        const t2r = br + dr
        const t2i = bi + di
        const t3r = br - dr
        const t3i = bi - di
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
}

/** Last radix-4 pass (no turning), the filter, and the first pass back, four rows at a time. */
export function filterColumns({ side, stride, re, im }: FourierSquare, filter: Float64Array): void {
  for (let row = 0; row < side; row += 4) {
    let a = row * stride
    const end = a + side
    let b = a + stride
    let c = b + stride
    let d = c + stride
    for (; a < end; a += 1, b += 1, c += 1, d += 1) {
      let t0r = re[a] + re[c]
      let t0i = im[a] + im[c]
      let t1r = re[a] - re[c]
      let t1i = im[a] - im[c]
      let t2r = re[b] + re[d]
      let t2i = im[b] + im[d]
      let t3r = re[b] - re[d]
      let t3i = im[b] - im[d]
      const fa = filter[a]
      const fb = filter[b]
      const fc = filter[c]
      const fd = filter[d]
      const ar = (t0r + t2r) * fa
      const ai = (t0i + t2i) * fa
      const br = (t1r + t3i) * fb
      const bi = (t1i - t3r) * fb
      const cr = (t0r - t2r) * fc
      const ci = (t0i - t2i) * fc
      const dr = (t1r - t3i) * fd
      const di = (t1i + t3r) * fd
      t0r = ar + cr
      t0i = ai + ci
      t1r = ar - cr
      t1i = ai - ci
      t2r = br + dr
      t2i = bi + di
      t3r = br - dr
      t3i = bi - di
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

/** One radix-2 pass over spans of 8 rows, for sides that are no power of 4. */
export function halveColumns({ side, stride, re, im, cos, sin }: FourierSquare): void {
  for (let base = 0; base < side; base += 8) {
    for (let j = 0; j < 4; j += 1) {
      const wr = cos[(j * side) / 8]
      const wi = sin[(j * side) / 8]
      let a = (base + j) * stride
      const end = a + side
      let b = a + 4 * stride
      for (; a < end; a += 1, b += 1) {
        const xr = re[a] - re[b]
        const xi = im[a] - im[b]
        re[a] += re[b]
        im[a] += im[b]
        re[b] = xr * wr - xi * wi
        im[b] = xr * wi + xi * wr
      }
    }
  }
}

export function joinColumnPairs({ side, stride, re, im, cos, sin }: FourierSquare): void {
  for (let base = 0; base < side; base += 8) {
    for (let j = 0; j < 4; j += 1) {
      const wr = cos[(j * side) / 8]
      const wi = -sin[(j * side) / 8]
      let a = (base + j) * stride
      const end = a + side
      let b = a + 4 * stride
      for (; a < end; a += 1, b += 1) {
        const xr = re[b] * wr - im[b] * wi
        const xi = re[b] * wi + im[b] * wr
        re[b] = re[a] - xr
        im[b] = im[a] - xi
        re[a] += xr
        im[a] += xi
      }
    }
  }
}
