/** Where a plate has tones within a band: how much of all, and the box about the largest patch, in pixels. */
export type ToneBand = Readonly<{
  share: number
  box: Readonly<{ left: number; top: number; right: number; bottom: number }>
}>

/** Side of the squares that patches are made of. */
const SQUARE_PX = 12
/** A patch begins where a square has so many such pixels. */
const LEAST_PX = 12

/**
 * Tones from … to on a plate, both included. A pixel counts where those beside, above and below it
 * are within the band too: a smoothed edge passes through every tone and has none of them.
 *
 * @param tones 0 … 255, row by row
 * @returns null where there are none to speak of
 */
export function toneBand(
  tones: Uint8Array,
  {
    widthPx,
    heightPx,
    from,
    to,
  }: Readonly<{ widthPx: number; heightPx: number; from: number; to: number }>,
): ToneBand | null {
  const across = Math.ceil(widthPx / SQUARE_PX)
  const down = Math.ceil(heightPx / SQUARE_PX)
  const counts = new Uint16Array(across * down)
  let all = 0
  const isIn = (at: number): boolean => tones[at] >= from && tones[at] <= to
  for (let y = 1; y < heightPx - 1; y++) {
    for (let x = 1; x < widthPx - 1; x++) {
      const at = y * widthPx + x
      const counted =
        isIn(at) && isIn(at - 1) && isIn(at + 1) && isIn(at - widthPx) && isIn(at + widthPx)
      if (!counted) continue
      counts[Math.floor(y / SQUARE_PX) * across + Math.floor(x / SQUARE_PX)] += 1
      all += 1
    }
  }
  const largest = largestPatch(counts, across)
  if (largest === null) return null
  const { left, top, right, bottom } = largest
  return {
    share: all / (widthPx * heightPx),
    box: {
      left: left * SQUARE_PX,
      top: top * SQUARE_PX,
      right: Math.min(widthPx, (right + 1) * SQUARE_PX),
      bottom: Math.min(heightPx, (bottom + 1) * SQUARE_PX),
    },
  }
}

type Patch = { left: number; top: number; right: number; bottom: number; count: number }

function largestPatch(counts: Uint16Array, across: number): Patch | null {
  const seen = new Uint8Array(counts.length)
  let largest: Patch | null = null
  for (let start = 0; start < counts.length; start++) {
    if (seen[start] === 1 || counts[start] < LEAST_PX) continue
    const patch = patchFrom(start, { counts, across, seen })
    if (largest === null || patch.count > largest.count) largest = patch
  }
  return largest
}

function patchFrom(
  start: number,
  { counts, across, seen }: Readonly<{ counts: Uint16Array; across: number; seen: Uint8Array }>,
): Patch {
  const patch: Patch = { left: across, top: counts.length, right: 0, bottom: 0, count: 0 }
  const open = [start]
  seen[start] = 1
  while (open.length > 0) {
    const at = open.pop() as number
    const [x, y] = [at % across, Math.floor(at / across)]
    patch.left = Math.min(patch.left, x)
    patch.right = Math.max(patch.right, x)
    patch.top = Math.min(patch.top, y)
    patch.bottom = Math.max(patch.bottom, y)
    patch.count += counts[at]
    const beside = [x > 0 ? at - 1 : -1, x < across - 1 ? at + 1 : -1, at - across, at + across]
    for (const next of beside) {
      if (next < 0 || next >= counts.length || seen[next] === 1) continue
      if (counts[next] < LEAST_PX) continue
      seen[next] = 1
      open.push(next)
    }
  }
  return patch
}
