import { type Point, smoothRing } from '../curve.ts'
import type { Box, Tone } from '../marks/hatch.ts'
import { rise } from '../noise.ts'
import { type Depths, depthAt, depthsOf, domeOf } from '../shape.ts'

/** A thing on the table: its outline, and how it takes the light from the upper left. */
export type Thing = Readonly<{
  outline: readonly Point[]
  depths: Depths
  /** Squared height of its rounded form, mm². */
  dome: Depths
  box: Box
  /** Tone in full light. */
  localTone: number
}>

export function thing(
  ring: readonly Point[],
  { localTone }: Readonly<{ localTone: number }>,
): Thing {
  const outline = smoothRing(ring, { stepMm: 1.5 })
  const xs = outline.map((point) => point.xMm)
  const ys = outline.map((point) => point.yMm)
  const box = {
    leftMm: Math.min(...xs),
    topMm: Math.min(...ys),
    rightMm: Math.max(...xs),
    bottomMm: Math.max(...ys),
  }
  const depths = depthsOf(outline, { cellMm: 1, marginMm: 8 })
  return { outline, depths, dome: domeOf(depths), box, localTone }
}

const LIGHT = { x: -0.56, y: -0.62, z: 0.55 }

/** Light on a rounded form: core shadow, reflected light at the far edge; −1 off the thing. */
export function modelled({ depths, dome, localTone }: Thing): Tone {
  return (xMm, yMm) => {
    if (depthAt(depths, xMm, yMm) <= 0) return -1
    // z² = u, so the normal is along (−du/dx, −du/dy, 2 z).
    const normalX = (depthAt(dome, xMm - 1.5, yMm) - depthAt(dome, xMm + 1.5, yMm)) / 3
    const normalY = (depthAt(dome, xMm, yMm - 1.5) - depthAt(dome, xMm, yMm + 1.5)) / 3
    const normalZ = 2 * Math.sqrt(Math.max(0, depthAt(dome, xMm, yMm)))
    const length = Math.hypot(normalX, normalY, normalZ) || 1
    const lit = (normalX * LIGHT.x + normalY * LIGHT.y + normalZ * LIGHT.z) / length
    const shade = 1 - rise(lit, -0.42, 0.96)
    const bounced = 0.3 * rise(-lit, 0.4, 0.9)
    return Math.max(0, localTone + (1 - localTone) * shade - bounced)
  }
}

/** The first thing's business only where no later one lies in front. */
export function behind(tone: Tone, front: readonly Thing[]): Tone {
  return (xMm, yMm) =>
    front.some(({ depths }) => depthAt(depths, xMm, yMm) > 0.2) ? -1 : tone(xMm, yMm)
}

const PEAR: readonly (readonly [number, number])[] = [
  [0.02, 1.0],
  [0.46, 0.94],
  [0.8, 0.66],
  [0.86, 0.3],
  [0.62, -0.12],
  [0.42, -0.5],
  [0.33, -0.84],
  [0.14, -1.06],
  [-0.1, -1.07],
  [-0.29, -0.86],
  [-0.38, -0.5],
  [-0.6, -0.1],
  [-0.88, 0.34],
  [-0.78, 0.72],
  [-0.42, 0.96],
]

export type Placed = Readonly<{ xMm: number; yMm: number; sizeMm: number; turnDeg: number }>

export function pearOutline(place: Placed): readonly Point[] {
  return PEAR.map(([x, y]) => placed(place, x, y))
}

/** A place on a turned and scaled thing, its own height running from −1 (top) to 1. */
export function placed({ xMm, yMm, sizeMm, turnDeg }: Placed, x: number, y: number): Point {
  const turn = (turnDeg * Math.PI) / 180
  return {
    xMm: xMm + sizeMm * (x * Math.cos(turn) - y * Math.sin(turn)),
    yMm: yMm + sizeMm * (x * Math.sin(turn) + y * Math.cos(turn)),
  }
}
