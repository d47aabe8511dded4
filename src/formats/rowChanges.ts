/** How many copies of the width stand behind a list, for whoever looks past its end. */
export const END_MARKS: number = 4

export function changeList(widthPx: number): Int32Array {
  return new Int32Array(widthPx + END_MARKS)
}

/**
 * Where a row of packed bits changes colour, from left to right: the row begins after a white
 * pixel, so the first place is where black begins, the second where it ends.
 *
 * @param bits rows as bytes, the first pixel in the highest bit, 1 for black; a view of them too
 * @param row where the row begins in them, and its width; bits past the width do not count
 * @param changes gets the places, and END_MARKS times the width behind them
 * @returns how many changes there are
 */
export function listChanges(
  bits: DataView,
  { start, widthPx }: Readonly<{ start: number; widthPx: number }>,
  changes: Int32Array,
): number {
  const words = widthPx >>> 5
  let count = 0
  let before = 0 // all bits of the colour of the pixel before, 0 or −1
  for (let word = 0; word < words; word++) {
    const pixels = bits.getInt32(start + 4 * word)
    if (pixels === before) continue
    // a bit is set where a pixel differs from the one on its left
    let differs = pixels ^ ((pixels >>> 1) | (before << 31))
    const base = word << 5
    while (differs !== 0) {
      const lead = Math.clz32(differs)
      changes[count++] = base + lead
      differs &= 0x7fff_ffff >>> lead
    }
    before = -(pixels & 1)
  }
  const rest = widthPx & 31
  if (rest > 0) {
    const pixels = lastPixels(bits, { start: start + 4 * words, rest })
    let differs = (pixels ^ ((pixels >>> 1) | (before << 31))) & (-1 << (32 - rest))
    while (differs !== 0) {
      const lead = Math.clz32(differs)
      changes[count++] = (words << 5) + lead
      differs &= 0x7fff_ffff >>> lead
    }
  }
  changes.fill(widthPx, count, count + END_MARKS)
  return count
}

/** Fewer than 32 pixels, from the highest bit on. */
function lastPixels(
  bits: DataView,
  { start, rest }: Readonly<{ start: number; rest: number }>,
): number {
  let pixels = 0
  for (let at = 0; at < rest; at += 8) pixels |= bits.getUint8(start + at / 8) << (24 - at)
  return pixels
}
