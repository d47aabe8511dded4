import { seenAt, type View } from '../../core/inspection/lens.ts'
import type { SheetBox } from './laidFlat.ts'
import type { Colours, Sheet } from './photoLight.ts'

/** How the colour of a sheet's parts differs from that of its clear parts. */
export type SheetColour = Readonly<{
  /** Part of the sheet that differs much. */
  share: number
  /** 1 where all that differs does so one way, as marks of one ink do; 0 for all ways alike. */
  oneWay: number
}>

/** Places looked at, a side. */
const PLACES = 60
/** Paler than this is clear film (judged). */
const CLEAR = 0.06
/** Such a factor between red, green and blue is another colour, as log10 (judged). */
const DIFFERS = 0.1

/**
 * @param map densities above clear film
 * @returns null where too little is clear or bright enough to compare
 */
export function sheetColour(
  { cellPx, across, down, hues }: Colours,
  { view, box, map }: Readonly<{ view: View; box: SheetBox; map: Sheet }>,
): SheetColour | null {
  const seen: Readonly<{ red: number; blue: number; density: number }>[] = []
  for (let at = 0; at < PLACES ** 2; at += 1) {
    const [u, v] = [((at % PLACES) + 0.5) / PLACES, (Math.floor(at / PLACES) + 0.5) / PLACES]
    const { x, y } = seenAt(view, { x: box.xMm + u * box.widthMm, y: box.yMm + v * box.heightMm })
    const [column, row] = [Math.floor(x / cellPx), Math.floor(y / cellPx)]
    if (column < 0 || row < 0 || column >= across || row >= down) continue
    const cell = 2 * (row * across + column)
    const [red, blue] = [hues[cell], hues[cell + 1]]
    const place = Math.floor(v * map.heightPx) * map.widthPx + Math.floor(u * map.widthPx)
    if (!Number.isNaN(red)) seen.push({ red, blue, density: map.values[place] })
  }
  const clear = seen.filter(({ density }) => density < CLEAR)
  if (clear.length < PLACES || seen.length < PLACES ** 2 / 4) return null
  const red = middle(clear.map((one) => one.red))
  const blue = middle(clear.map((one) => one.blue))
  let [count, length, alongRed, alongBlue] = [0, 0, 0, 0]
  for (const one of seen) {
    const [dRed, dBlue] = [one.red - red, one.blue - blue]
    const far = Math.hypot(dRed, dBlue)
    if (far < DIFFERS) continue
    count += 1
    length += far
    alongRed += dRed
    alongBlue += dBlue
  }
  return {
    share: count / seen.length,
    oneWay: count === 0 ? 1 : Math.hypot(alongRed, alongBlue) / length,
  }
}

function middle(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0
}
