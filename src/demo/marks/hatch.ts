import type { Canvas } from '../canvas.ts'
import type { Knot } from '../curve.ts'
import { hills } from '../noise.ts'
import type { Random } from '../random.ts'
import { rub } from './pencil.ts'

/** How dark the eye wants a place, 0 … 1; below 0 where this hatching has no business. */
export type Tone = (xMm: number, yMm: number) => number

export type Box = Readonly<{ leftMm: number; topMm: number; rightMm: number; bottomMm: number }>

export type Hatching = Readonly<{
  box: Box
  tone: Tone
  halfWidthMm: number
  /** Laid one over the other. */
  layers: readonly Layer[]
}>

export type Layer = Readonly<{
  /** Direction of the strokes; 0 to the right, clockwise as seen. */
  angleDeg: number
  spacingMm: number
  /** Tone at which strokes begin, and at which they are pressed hardest. */
  tones: readonly [number, number]
  /** Lightest and hardest pressure. */
  press: readonly [number, number]
  strokeMm: number
  /** How far the middle of a line across the whole box bows aside. */
  bowMm?: number
}>

const STEP_MM = 1.1
/** All is pressed harder than on paper: what does not stop light is lost on a screen. */
const HAND = 1.6

/** Parallel strokes, pressed as the tone asks; the hand lifts, sets down again, strays a little. */
export function hatch(canvas: Canvas, hatching: Hatching, random: Random): void {
  for (const layer of hatching.layers) hatchLayer(canvas, { ...hatching, ...layer }, random)
}

function hatchLayer(canvas: Canvas, field: Omit<Hatching, 'layers'> & Layer, random: Random): void {
  const { box, tone, angleDeg, spacingMm, halfWidthMm, tones, press, bowMm = 0, strokeMm } = field
  const turn = (angleDeg * Math.PI) / 180
  const dirX = Math.cos(turn)
  const dirY = Math.sin(turn)
  const middleX = (box.leftMm + box.rightMm) / 2
  const middleY = (box.topMm + box.bottomMm) / 2
  const halfMm = Math.hypot(box.rightMm - box.leftMm, box.bottomMm - box.topMm) / 2
  const drift = random.seed()
  for (let offMm = -halfMm; offMm < halfMm; offMm += spacingMm * random.between(0.8, 1.2)) {
    let stroke: Knot[] = []
    let leftMm = strokeMm * random.between(0.6, 1.4)
    const lean = random.around(0, 0.012)
    const finish = (): void => {
      if (stroke.length > 1) rub(canvas, tapered(stroke, random), { seed: random.seed() })
      stroke = []
      leftMm = strokeMm * random.between(0.6, 1.4)
    }
    for (let runMm = -halfMm - random.between(0, STEP_MM); runMm < halfMm; runMm += STEP_MM) {
      const stray = (hills(runMm / 16, offMm / 9, drift) - 0.5) * 1.1
      const asideMm = offMm + stray + lean * runMm + bowMm * (1 - (runMm / halfMm) ** 2)
      const xMm = middleX + runMm * dirX - asideMm * dirY
      const yMm = middleY + runMm * dirY + asideMm * dirX
      const want = (tone(xMm, yMm) - tones[0]) / (tones[1] - tones[0])
      if (want <= 0) {
        finish()
        continue
      }
      const load = HAND * (press[0] + (press[1] - press[0]) * Math.min(1, want))
      stroke.push({ xMm, yMm, halfWidthMm: halfWidthMm * (0.85 + 0.3 * Math.min(1, want)), load })
      leftMm -= STEP_MM
      if (leftMm < 0) finish()
    }
    finish()
  }
}

/** Set down firmly, lifted off softly; the ends overshoot by a little. */
function tapered(stroke: readonly Knot[], random: Random): readonly Knot[] {
  const last = stroke.length - 1
  const swing = random.between(0.85, 1.15)
  const inked = stroke.map((knot, at) => {
    const rest = Math.min(1, (last - at) / 3)
    const start = Math.min(1, 0.65 + at * 0.35)
    return { ...knot, load: knot.load * swing * start * (0.5 + 0.5 * rest) }
  })
  const from = stroke[last - 1]
  const to = stroke[last]
  const pastMm = random.between(0, 1.2)
  const tail = {
    xMm: to.xMm + (to.xMm - from.xMm) * pastMm,
    yMm: to.yMm + (to.yMm - from.yMm) * pastMm,
    halfWidthMm: to.halfWidthMm * 0.7,
    load: 0.05,
  }
  return [...inked, tail]
}
