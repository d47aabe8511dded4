/**
 * How a leak value (dose at a place over the dose under clear film without base) is kept in 16
 * bits: the float's own bits, rounded to 12 bits of mantissa, less an offset. Monotone, one part
 * in 8000, from 2^−15.5 (density 4.67) to 2^0.5, so a dose becomes one integer threshold.
 */
export type LeakCode = number

/** Bits of √2's float, shifted: the largest code. */
const TOP = floatBits(Math.SQRT2) >>> 11
const OFFSET = TOP - 65535

/** Rounded code of a leak value; below the least 0, above √2 65535. */
export function codeOfLeak(leak: number): LeakCode {
  return Math.min(65535, Math.max(0, ((floatBits(Math.max(0, leak)) + 1024) >>> 11) - OFFSET))
}

/** The leak a code stands for. */
export function leakOfCode(code: LeakCode): number {
  const view = new DataView(new ArrayBuffer(4))
  view.setUint32(0, (code + OFFSET) << 11)
  return view.getFloat32(0)
}

/** Codes of a row of leak values standing in a float array whose bits are seen through `bits`. */
export function codeRow(
  bits: Uint32Array,
  target: Uint16Array,
  { at, count }: Readonly<{ at: number; count: number }>,
): void {
  for (let x = 0; x < count; x += 1) {
    const code = ((bits[x] + 1024) >>> 11) - OFFSET
    target[at + x] = code < 0 ? 0 : code > 65535 ? 65535 : code
  }
}

function floatBits(value: number): number {
  const view = new DataView(new ArrayBuffer(4))
  view.setFloat32(0, value)
  return view.getUint32(0)
}
