import { Failure } from '../core/failure.ts'
import { named } from './named.ts'

/** What a drawing library holds of a drawing at a time; it and its copy are 4 bytes a pixel. */
const BAND_PX = 2 ** 21
/** Libraries reckon edges in 16 bits of whole pixels, half of which lie on the other side of 0. */
const MOST_WIDE_PX = 30_000

/** Rows of a band. @throws Failure 'too large' where rows are wider than can be drawn */
export function drawnRows(path: string, widthPx: number): number {
  if (widthPx > MOST_WIDE_PX) {
    const message = `${named(path)} would be ${widthPx} pixels wide, and drawings are made up to ${MOST_WIDE_PX}; lower the plan's resolutionDpi or its width.`
    throw new Failure('too large', message, { field: 'resolutionDpi' })
  }
  return Math.max(1, Math.floor(BAND_PX / widthPx))
}

/** Colours that were multiplied by alpha, laid on white, in place. */
export function onWhite(rgba: Uint8Array): Uint8Array {
  for (let at = 0; at < rgba.length; at += 4) {
    const rest = 255 - (rgba[at + 3] ?? 0)
    if (rest === 0) continue
    for (let channel = at; channel < at + 3; channel++) rgba[channel] = (rgba[channel] ?? 0) + rest
  }
  return rgba
}

/** Without the fourth sample of each pixel. */
export function rgbOf(rgba: Uint8Array): Uint8Array {
  const rgb = new Uint8Array((rgba.length / 4) * 3)
  for (let from = 0, to = 0; from < rgba.length; from += 4, to += 3) {
    rgb[to] = rgba[from] ?? 0
    rgb[to + 1] = rgba[from + 1] ?? 0
    rgb[to + 2] = rgba[from + 2] ?? 0
  }
  return rgb
}
