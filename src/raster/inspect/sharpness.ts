import { blur, type Plane, planeOf } from './plane.ts'

const PATCH = 48
const PATCHES = 40
const RIM = 14
const SD_PX = [0.4, 0.55, 0.75, 1, 1.35, 1.8, 2.4, 3.2, 4.3, 5.8] as const

/** Blur in cells from which a photo is too soft to speak of. */
export const TOO_SOFT_PX = 4

/**
 * How much the photo blurred: the sd of the Gaussian (cells) that turns the film's edges into the
 * photo's, over the patches that have most edges.
 */
export function blurOf(openness: Plane, shares: Plane): number {
  const patches = edgedPatches(shares)
  if (patches.length === 0) return 1
  const sums: number[] = []
  for (const sdPx of SD_PX) {
    sums.push(patches.reduce((sum, patch) => sum + misfit(openness, shares, { ...patch, sdPx }), 0))
    // twice worse in a row: it only gets worse from here
    const [first, second, third] = sums.slice(-3)
    if (first < second && second < third) break
  }
  const best = sums.indexOf(Math.min(...sums))
  const [before, at, after] = [sums[best - 1], sums[best], sums[best + 1]]
  if (before === undefined || after === undefined) return SD_PX[best]
  // the lowest point of the parabola through three, on the ladder's own scale
  const shift = (0.5 * (before - after)) / (before - 2 * at + after)
  return SD_PX[best] * (SD_PX[best + 1] / SD_PX[best]) ** shift
}

type Patch = Readonly<{ left: number; top: number }>

function edgedPatches({ widthPx, heightPx, values }: Plane): readonly Patch[] {
  const found: (Patch & Readonly<{ edges: number }>)[] = []
  for (let top = 0; top + PATCH <= heightPx; top += PATCH) {
    for (let left = 0; left + PATCH <= widthPx; left += PATCH) {
      let edges = 0
      for (let y = top; y < top + PATCH; y += 2) {
        for (let x = left + 1; x < left + PATCH; x += 2) {
          edges += Math.abs(values[y * widthPx + x] - values[y * widthPx + x - 1])
        }
      }
      if (edges > PATCH / 8) found.push({ left, top, edges })
    }
  }
  found.sort((a, b) => b.edges - a.edges)
  // not only the busiest: from all over the better half
  const some = found.slice(0, Math.max(PATCHES, found.length >> 1))
  const every = Math.max(1, some.length / PATCHES)
  return Array.from(
    { length: Math.min(PATCHES, some.length) },
    (_, k) => some[Math.floor(k * every)],
  )
}

/** What is left of the photo after the film, blurred, has explained what it can; outliers count little. */
function misfit(
  openness: Plane,
  shares: Plane,
  { left, top, sdPx }: Patch & Readonly<{ sdPx: number }>,
): number {
  const film = planeOf(PATCH, PATCH)
  for (let y = 0; y < PATCH; y += 1) {
    for (let x = 0; x < PATCH; x += 1) {
      film.values[y * PATCH + x] = shares.values[(top + y) * shares.widthPx + left + x]
    }
  }
  blur(film, sdPx)
  let sum = 0
  for (let y = RIM / 2; y < PATCH - RIM / 2; y += 1) {
    for (let x = RIM / 2; x < PATCH - RIM / 2; x += 1) {
      const off =
        openness.values[(top + y) * openness.widthPx + left + x] - film.values[y * PATCH + x]
      sum += Math.min(off * off, 0.09)
    }
  }
  return sum
}
