/**
 * Noise fields on the sheet: a place in, 0 … 1 out. They hang on the place (in units of the
 * grain's size), never on pixels, so that a drawing is the same one at every resolution.
 */

/** 32 bits in which every bit of both numbers has had its say. */
export function mixed(value: number, seed: number): number {
  let bits = Math.imul(value ^ 0x2545f491, 0x7feb352d) ^ Math.imul(seed + 0x51ed270b, 0x68e31da5)
  bits = Math.imul(bits ^ (bits >>> 16), 0x21f0aaad)
  bits = Math.imul(bits ^ (bits >>> 15), 0x735a2d97)
  return (bits ^ (bits >>> 15)) >>> 0
}

/** Smooth hills between random heights on a grid of side 1. */
export function hills(x: number, y: number, seed: number): number {
  const column = Math.floor(x)
  const row = Math.floor(y)
  const right = ease(x - column)
  const down = ease(y - row)
  const top = Math.imul(row, 0x3c6ef35f) ^ seed
  const bottom = Math.imul(row + 1, 0x3c6ef35f) ^ seed
  const a = height(column, top)
  const b = height(column + 1, top)
  const c = height(column, bottom)
  const d = height(column + 1, bottom)
  const upper = a + (b - a) * right
  const lower = c + (d - c) * right
  return upper + (lower - upper) * down
}

/** Hills upon hills: each octave half the size and half the height; middle 0.5. */
export function rough(
  x: number,
  y: number,
  { seed, octaves }: Readonly<{ seed: number; octaves: number }>,
): number {
  let sum = 0
  let weight = 0.5
  let total = 0
  let alongX = x
  let alongY = y
  for (let octave = 0; octave < octaves; octave += 1) {
    // Each octave turned, so that no grid shows: (1.6, 1.2) is a turn of 37 degrees and a doubling.
    const turned = 1.6 * alongX - 1.2 * alongY + 17.3
    alongY = 1.2 * alongX + 1.6 * alongY - 9.7
    alongX = turned
    sum += weight * hills(alongX * 0.5, alongY * 0.5, seed + octave * 131)
    total += weight
    weight *= 0.5
  }
  return sum / total
}

/** A net of ridges, 1 on the ridge: how pigment gathers where a wash dries. */
export function ridges(x: number, y: number, seed: number): number {
  const bend = hills(x * 0.6, y * 0.6, seed + 7)
  const ridge =
    1 - Math.abs(2 * hills(0.8 * x - 0.6 * y + bend, 0.6 * x + 0.8 * y - bend, seed) - 1)
  const fine =
    1 - Math.abs(2 * hills(1.2 * x + 1.7 * y - bend, 1.2 * y - 1.7 * x + bend, seed + 31) - 1)
  return ridge ** 3 * 0.6 + fine ** 3 * 0.4
}

/** 0 below `from`, 1 above `to`, smooth between. */
export function rise(value: number, from: number, to: number): number {
  const part = (value - from) / (to - from)
  return part <= 0 ? 0 : part >= 1 ? 1 : part * part * (3 - 2 * part)
}

function ease(part: number): number {
  return part * part * (3 - 2 * part)
}

function height(column: number, rowBits: number): number {
  let bits = Math.imul(column, 0x2c1b3c6d) ^ rowBits
  bits = Math.imul(bits ^ (bits >>> 15), 0x297a2d39)
  bits = Math.imul(bits ^ (bits >>> 13), 0x6b79f8e1)
  return ((bits ^ (bits >>> 16)) >>> 0) / 0x1_0000_0000
}
