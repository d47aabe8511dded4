import { type Greys, greyAbout } from './greyCells.ts'
import type { Plane } from './plane.ts'

/** What a cell is, against what it should be. */
export const DIFFERENCE = {
  none: 0,
  openWeak: 1,
  openStrong: 2,
  shutWeak: 3,
  shutStrong: 4,
} as const

export type Limits = Readonly<{
  /** Openness above (open) or below (shut) what can be expected, from which a cell counts. */
  openWeak: number
  openStrong: number
  shutWeak: number
  shutStrong: number
}>

/**
 * Cells that are more open or more shut than anything the film puts within one cell of them: so
 * much may the straightened photo be off. Where the film is grey, all between its tone and what its
 * marks ask for may be there.
 *
 * @param openness 0 … 1; expected: the film as blurred as the photo
 */
export function differences(
  openness: Plane,
  expected: Plane & Readonly<{ greys?: Greys | null }>,
  limits: Limits,
): Uint8Array {
  const greys = expected.greys ?? null
  const { widthPx, heightPx } = openness
  const [values, due] = [openness.values, expected.values]
  const out = new Uint8Array(widthPx * heightPx)
  const { openWeak, openStrong, shutWeak, shutStrong } = limits
  for (let y = 0, at = 0; y < heightPx; y += 1) {
    const up = y > 0 ? widthPx : 0
    const down = y < heightPx - 1 ? widthPx : 0
    for (let x = 0; x < widthPx; x += 1, at += 1) {
      const full = values[at]
      // brighter than open is still only open
      const seen = full > 1 ? 1 : full
      const off = seen - due[at]
      // the neighbours can only bring it nearer
      if (off <= openWeak && -off <= shutWeak) continue
      const left = x > 0 ? at - 1 : at
      const right = x < widthPx - 1 ? at + 1 : at
      const near = { left, at, right, up, down }
      const grey = greys === null ? NO_GREY : greyAbout(greys, near)
      if (off > 0) {
        const over = seen - grey.most - most(due, near)
        if (over > openWeak)
          out[at] = over > openStrong ? DIFFERENCE.openStrong : DIFFERENCE.openWeak
      } else {
        const under = least(due, near) + grey.least - seen
        if (under > shutWeak)
          out[at] = under > shutStrong ? DIFFERENCE.shutStrong : DIFFERENCE.shutWeak
      }
    }
  }
  return out
}

const NO_GREY = { least: 0, most: 0 } as const

/** A cell with its neighbours left and right, and how far the rows above and below are. */
type Near = Readonly<{ left: number; at: number; right: number; up: number; down: number }>

function most(values: Float32Array, { left, at, right, up, down }: Near): number {
  return Math.max(
    Math.max(values[left - up], values[at - up], values[right - up]),
    Math.max(values[left], values[at], values[right]),
    Math.max(values[left + down], values[at + down], values[right + down]),
  )
}

function least(values: Float32Array, { left, at, right, up, down }: Near): number {
  return Math.min(
    Math.min(values[left - up], values[at - up], values[right - up]),
    Math.min(values[left], values[at], values[right]),
    Math.min(values[left + down], values[at + down], values[right + down]),
  )
}
