// Seeded films for the benches, as rows of bits (1 = black): the same every time, at any height.

/** Numbers 0 … 1 from a seed. */
export function seeded(seed) {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

/**
 * sin(rate · x + phase) and its cosine for every x, by the sum of angles: two products a pixel, as a sine
 * for each would take longer than what is measured.
 */
export function waveOf({ widthPx, rate }) {
  const sines = Float64Array.from({ length: widthPx }, (_, x) => Math.sin(rate * x))
  const cosines = Float64Array.from({ length: widthPx }, (_, x) => Math.cos(rate * x))
  return { sines, cosines }
}

/** A photograph in round dots, 18 lines per cm at 22.5 degrees. */
export function dotRow({ widthPx, dpi }) {
  const perPx = (2 * Math.PI * 18 * 2.54) / dpi
  const [cos, sin] = [perPx * Math.cos(Math.PI / 8), perPx * Math.sin(Math.PI / 8)]
  const [slow, quick, along, across] = [1 / 1900, 1 / 310, cos, -sin].map((rate) =>
    waveOf({ widthPx, rate }),
  )
  return (y, row) => {
    const [slowSin, slowCos] = [0.28 * Math.sin(y / 2300), 0.28 * Math.cos(y / 2300)]
    const high = 0.18 * Math.cos(y / 700)
    const [quickSin, quickCos] = [high * Math.sin(-y / 440), high * Math.cos(-y / 440)]
    const [alongSin, alongCos] = [0.25 * Math.sin(y * sin), 0.25 * Math.cos(y * sin)]
    const [acrossSin, acrossCos] = [0.25 * Math.sin(y * cos), 0.25 * Math.cos(y * cos)]
    for (let x = 0; x < widthPx; x += 1) {
      const tone =
        0.5 +
        (slow.sines[x] * slowCos + slow.cosines[x] * slowSin) +
        (quick.sines[x] * quickCos + quick.cosines[x] * quickSin)
      const dots =
        along.cosines[x] * alongCos -
        along.sines[x] * alongSin +
        (across.cosines[x] * acrossCos - across.sines[x] * acrossSin)
      row[x] = 0.5 + dots > 1 - tone ? 1 : 0
    }
  }
}

/** A poster: solids, strokes, hatching and lettering. About a fifth of 32-pixel blocks hold an edge. */
export function lineRow({ widthPx, heightPx }) {
  const next = seeded(11)
  const solids = Array.from({ length: 9 }, () => ({
    x: next() * widthPx,
    y: next() * heightPx,
    r: (0.03 + 0.11 * next()) * widthPx,
  }))
  const strokes = Array.from({ length: 60 }, () => ({
    x: next() * widthPx,
    sway: 200 + 900 * next(),
    length: 900 + 2500 * next(),
    phase: 7 * next(),
    wide: 6 + 60 * next(),
  }))
  const hatched = Array.from({ length: 7 }, () => ({
    x: next() * widthPx * 0.85,
    y: next() * heightPx * 0.85,
    side: (0.05 + 0.07 * next()) * widthPx,
    gap: 14 + Math.floor(18 * next()),
  }))
  const lines = Array.from({ length: 10 }, (_, at) => ({
    y: (0.06 + 0.09 * at) * heightPx,
    size: 60 + 22 * at,
  }))
  return (y, row) => {
    const ink = (from, to) => {
      const start = Math.min(widthPx, Math.max(0, Math.round(from)))
      row.fill(1, start, Math.min(widthPx, Math.max(start, Math.round(to))))
    }
    row.fill(0)
    for (const { x, y: cy, r } of solids) {
      const half = r * r - (y - cy) ** 2
      if (half > 0) ink(x - Math.sqrt(half), x + Math.sqrt(half))
    }
    for (const { x, sway, length, phase, wide } of strokes) {
      const middle = x + sway * Math.sin(y / length + phase)
      ink(middle - wide / 2, middle + wide / 2)
    }
    for (const { x, y: top, side, gap } of hatched) {
      if (y < top || y > top + side) continue
      for (let at = Math.floor(x + (y % gap)); at < x + side; at += gap) ink(at, at + gap / 3)
    }
    for (const { y: top, size } of lines) {
      const inLine = Math.floor((y - top) / (size / 7))
      if (inLine < 0 || inLine > 6) continue
      const letters = seeded(1000 + Math.round(top) + inLine)
      for (let x = 0.08 * widthPx; x < 0.6 * widthPx; x += size / 7) {
        if (letters() < 0.42) ink(x, x + size / 7)
      }
    }
  }
}

/** Nothing but clear film. */
export function blankRow() {
  return (_, row) => row.fill(0)
}

export const FILMS = { line: lineRow, dot: dotRow, blank: blankRow }
