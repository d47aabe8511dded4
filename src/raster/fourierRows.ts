import type { FourierSquare } from './fourier.ts'

/** All passes along one row, scrambling it. */
export function forwardRow({ side, stride, re, im, cos, sin }: FourierSquare, row: number): void {
  const start = row * stride
  const end = start + side
  let span = side
  for (; span > 4; span = span === 8 ? 4 : span >> 2) {
    if (span === 8) {
      for (let base = start; base < end; base += 8) {
        for (let j = 0; j < 4; j += 1) {
          const wr = cos[(j * side) >> 3]
          const wi = sin[(j * side) >> 3]
          const a = base + j
          const b = a + 4
          const xr = re[a] - re[b]
          const xi = im[a] - im[b]
          re[a] += re[b]
          im[a] += im[b]
          re[b] = xr * wr - xi * wi
          im[b] = xr * wi + xi * wr
        }
      }
      continue
    }
    const quarter = span >> 2
    const turn = side / span
    for (let j = 0; j < quarter; j += 1) {
      const w1r = cos[j * turn]
      const w1i = sin[j * turn]
      const w2r = cos[2 * j * turn]
      const w2i = sin[2 * j * turn]
      const w3r = cos[3 * j * turn]
      const w3i = sin[3 * j * turn]
      for (let a = start + j; a < end; a += span) {
        const b = a + quarter
        const c = b + quarter
        const d = c + quarter
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
  for (let a = start; a < end; a += 4) {
    const t0r = re[a] + re[a + 2]
    const t0i = im[a] + im[a + 2]
    const t1r = re[a] - re[a + 2]
    const t1i = im[a] - im[a + 2]
    const t2r = re[a + 1] + re[a + 3]
    const t2i = im[a + 1] + im[a + 3]
    const t3r = re[a + 1] - re[a + 3]
    const t3i = im[a + 1] - im[a + 3]
    re[a] = t0r + t2r
    im[a] = t0i + t2i
    re[a + 1] = t1r + t3i
    im[a + 1] = t1i - t3r
    re[a + 2] = t0r - t2r
    im[a + 2] = t0i - t2i
    re[a + 3] = t1r - t3i
    im[a + 3] = t1i + t3r
  }
}

/** The passes above undone, without the division by the side. */
export function backwardRow({ side, stride, re, im, cos, sin }: FourierSquare, row: number): void {
  const start = row * stride
  const end = start + side
  for (let a = start; a < end; a += 4) {
    const t0r = re[a] + re[a + 2]
    const t0i = im[a] + im[a + 2]
    const t1r = re[a] - re[a + 2]
    const t1i = im[a] - im[a + 2]
    const t2r = re[a + 1] + re[a + 3]
    const t2i = im[a + 1] + im[a + 3]
    const t3r = re[a + 1] - re[a + 3]
    const t3i = im[a + 1] - im[a + 3]
    re[a] = t0r + t2r
    im[a] = t0i + t2i
    re[a + 1] = t1r - t3i
    im[a + 1] = t1i + t3r
    re[a + 2] = t0r - t2r
    im[a + 2] = t0i - t2i
    re[a + 3] = t1r + t3i
    im[a + 3] = t1i - t3r
  }
  let done = 4
  while (done < side) {
    const span = done === 4 && isOddPower(side) ? 8 : done * 4
    if (span === 8) {
      for (let base = start; base < end; base += 8) {
        for (let j = 0; j < 4; j += 1) {
          const wr = cos[(j * side) >> 3]
          const wi = -sin[(j * side) >> 3]
          const a = base + j
          const b = a + 4
          const xr = re[b] * wr - im[b] * wi
          const xi = re[b] * wi + im[b] * wr
          re[b] = re[a] - xr
          im[b] = im[a] - xi
          re[a] += xr
          im[a] += xi
        }
      }
      done = 8
      continue
    }
    const quarter = span >> 2
    const turn = side / span
    for (let j = 0; j < quarter; j += 1) {
      const w1r = cos[j * turn]
      const w1i = -sin[j * turn]
      const w2r = cos[2 * j * turn]
      const w2i = -sin[2 * j * turn]
      const w3r = cos[3 * j * turn]
      const w3i = -sin[3 * j * turn]
      for (let a = start + j; a < end; a += span) {
        const b = a + quarter
        const c = b + quarter
        const d = c + quarter
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
        const t0r = re[a] + cr
        const t0i = im[a] + ci
        const t1r = re[a] - cr
        const t1i = im[a] - ci
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
    done = span
  }
}

function isOddPower(side: number): boolean {
  return Math.log2(side) % 2 !== 0
}
