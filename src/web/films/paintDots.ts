import type { Lab } from '../../core/colour/space.ts'
import { srgbFromLab } from '../../core/colour/srgb.ts'
import type { LoupeLook } from './FilmLoupe.tsx'
import type { Dots } from './previewAsk.ts'

/** Dried emulsion, threads under it, and bare threads of white and of dyed fabric. From memory. */
const STENCIL: Lab = [31, -22, -5]
const THREAD_IN_STENCIL: Lab = [26, -19, -5]
const WHITE_THREAD: Lab = [90, 0, 4]
const DYED_THREAD: Lab = [79, 17, 78]

/**
 * A square of a stencil as it will stand on its fabric: emulsion where the film is clear, open threads
 * with ink between them where it is black.
 *
 * @param into RGBA, a square
 * @param sidePx of the square
 */
export function paintDots(
  into: Uint8ClampedArray,
  sidePx: number,
  { dots, lab, fabric }: Pick<LoupeLook, 'lab' | 'fabric'> & Readonly<{ dots: Dots }>,
): void {
  const colours = [STENCIL, THREAD_IN_STENCIL, lab, fabric?.dyed ? DYED_THREAD : WHITE_THREAD].map(
    (colour) => srgbFromLab(colour).map((value) => Math.round(255 * value)),
  )
  const umPerPx = (dots.sidePx * dots.pixelUm) / sidePx
  const isThread = Uint8Array.from({ length: sidePx }, (_, at) => {
    if (fabric === null) return 0
    const pitchUm = 10_000 / fabric.weave.threadsPerCm
    return (at * umPerPx) % pitchUm < fabric.weave.threadUm ? 1 : 0
  })
  for (let y = 0, to = 0; y < sidePx; y++) {
    const row = Math.floor((y * dots.sidePx) / sidePx) * dots.sidePx
    for (let x = 0; x < sidePx; x++, to += 4) {
      const isOpen = dots.black[row + Math.floor((x * dots.sidePx) / sidePx)] === 1
      const kind = (isOpen ? 2 : 0) + (isThread[x] === 1 || isThread[y] === 1 ? 1 : 0)
      const [red = 0, green = 0, blue = 0] = colours[kind] ?? []
      into[to] = red
      into[to + 1] = green
      into[to + 2] = blue
      into[to + 3] = 255
    }
  }
}

/** A square of the print, ink on ink. */
export function paintPrint(
  into: Uint8ClampedArray,
  side: number,
  { sidePx, print }: Readonly<{ sidePx: number; print: Uint8Array }>,
): void {
  for (let y = 0, to = 0; y < side; y++) {
    const row = Math.floor((y * sidePx) / side) * sidePx
    for (let x = 0; x < side; x++, to += 4) {
      const from = 3 * (row + Math.floor((x * sidePx) / side))
      into[to] = print[from] ?? 255
      into[to + 1] = print[from + 1] ?? 255
      into[to + 2] = print[from + 2] ?? 255
      into[to + 3] = 255
    }
  }
}
