import type { Canvas } from '../canvas.ts'
import { hatch, type Tone } from '../marks/hatch.ts'
import { rise } from '../noise.ts'
import type { Random } from '../random.ts'
import { depthAt } from '../shape.ts'
import { lineOf } from './contour.ts'
import { behind } from './still.ts'
import { type StillLife, TABLE_EDGE_MM, TABLE_MM } from './table.ts'

export function hatchWall(canvas: Canvas, { everything }: StillLife, random: Random): void {
  // Darker behind the lit side, fading to the right; the hand leaves the sheet's edge free.
  const tone: Tone = (x, y) => {
    if (y > TABLE_MM || y < 22 || x < 14 || x > 196) return -1
    const edge = rise(x, 12, 30) * rise(y, 20, 58) * rise(198 - x, 0, 20)
    const handle = 0.16 * rise(40 - Math.hypot(x - 92, (y - 92) * 1.1), 0, 30)
    return edge * (0.62 - 0.44 * rise(x, 40, 170) + 0.2 * rise(y, 70, TABLE_MM)) - handle
  }
  const wall = behind(tone, everything)
  const box = { leftMm: 10, topMm: 18, rightMm: 200, bottomMm: TABLE_MM }
  const soft = { box, tone: wall, halfWidthMm: 0.45 }
  hatch(
    canvas,
    {
      ...soft,
      layers: [
        {
          angleDeg: 122,
          spacingMm: 1.25,
          tones: [0.08, 0.8],
          press: [0.44, 0.75],
          strokeMm: 34,
          bowMm: 6,
        },
        { angleDeg: 104, spacingMm: 1.4, tones: [0.4, 0.9], press: [0.5, 0.8], strokeMm: 26 },
      ],
    },
    random,
  )
}

export function hatchTable(
  canvas: Canvas,
  { everything, shadows, cloth }: StillLife,
  random: Random,
): void {
  const tone: Tone = (x, y) => {
    if (y < TABLE_MM || y > TABLE_EDGE_MM || x < 14 || x > 202 || depthAt(cloth, x, y) > -0.5)
      return -1
    const shadow = Math.max(...shadows.map((depths) => rise(depthAt(depths, x, y), -1.4, 3.4)))
    return 0.06 + 0.22 * rise(x, 60, 200) * rise(y, 250, 140) + 0.78 * shadow
  }
  const table = behind(tone, everything)
  const box = { leftMm: 10, topMm: TABLE_MM, rightMm: 204, bottomMm: 262 }
  const soft = { box, tone: table, halfWidthMm: 0.42 }
  hatch(
    canvas,
    {
      ...soft,
      layers: [
        { angleDeg: 3, spacingMm: 1.3, tones: [0.1, 0.9], press: [0.48, 1], strokeMm: 40 },
        { angleDeg: -24, spacingMm: 1.05, tones: [0.4, 0.9], press: [0.4, 0.95], strokeMm: 22 },
        { angleDeg: 38, spacingMm: 1.2, tones: [0.62, 0.95], press: [0.4, 0.9], strokeMm: 16 },
      ],
    },
    random,
  )
}

/** The front of the table, in its own shadow, and its edges. */
export function hatchFront(canvas: Canvas, { cloth }: StillLife, random: Random): void {
  const line = lineOf(canvas, random)
  const frontTone: Tone = (x, y) => {
    if (y < TABLE_EDGE_MM + 1 || y > 280 || x < 80 || x > 202 || depthAt(cloth, x, y) > -0.5)
      return -1
    return 0.75 * rise(278 - y, 0, 24) + 0.3 * rise(x, 110, 76)
  }
  const front = {
    box: { leftMm: 78, topMm: TABLE_EDGE_MM, rightMm: 204, bottomMm: 282 },
    tone: frontTone,
    halfWidthMm: 0.42,
  }
  hatch(
    canvas,
    {
      ...front,
      layers: [
        { angleDeg: 84, spacingMm: 1.15, tones: [0.1, 1], press: [0.44, 0.95], strokeMm: 26 },
        { angleDeg: 58, spacingMm: 1.3, tones: [0.5, 1], press: [0.5, 0.8], strokeMm: 16 },
      ],
    },
    random,
  )
  line(
    [
      [79, TABLE_EDGE_MM + 0.6, 0.35, 0.9],
      [120, TABLE_EDGE_MM, 0.4, 1],
      [164, TABLE_EDGE_MM + 0.4, 0.4, 0.9],
      [203, TABLE_EDGE_MM, 0.3, 0.5],
    ],
    2,
  )
  line('14,128.6,0.3,0.5 34,128,0.35,0.7 48,128.2,0.3,0.5', 2)
  line('134,128.4,0.3,0.4 164,127.6,0.35,0.7 198,128.2,0.3,0.3', 2)
}

/** A striped cloth over the table's edge, in a light hand: the weakest marks of the sheet. */
export function hatchCloth(canvas: Canvas, { pears, cloth }: StillLife, random: Random): void {
  const line = lineOf(canvas, random)
  line(`14,212.4,0.3,0.4 38,204,0.3,0.5 60,199,0.3,0.42 70,226,0.3,0.5 78,251,0.3,0.5
      80,268,0.3,0.5 70,281,0.3,0.42`)
  line('70,281,0.3,0.5 55,274,0.3,0.45 40,284,0.3,0.5 27,276,0.3,0.4 14,282,0.3,0.4')
  for (const [x, tall] of [
    [27, 22],
    [55, 20],
    [69, 14],
  ] as const) {
    line(
      [
        [x + 1, 253, 0.4, 0.3],
        [x, 253 + tall * 0.5, 0.4, 0.5],
        [x - 0.4, 253 + tall, 0.3, 0.3],
      ],
      2,
    )
  }
  const tone: Tone = (x, y) => {
    if (depthAt(cloth, x, y) < 0.4) return -1
    // On the table the stripes run away from us; over the edge they hang, and sway with the folds.
    const over = Math.max(0, y - TABLE_EDGE_MM)
    const across =
      y < TABLE_EDGE_MM
        ? x - 0.34 * (y - TABLE_EDGE_MM)
        : x + 1.6 * Math.sin(x * 0.23) * rise(over, 0, 24)
    const place = (((across - 3) % 11) + 11) % 11
    return place < 5.4 || (place > 7 && place < 8) ? 0.7 + 0.3 * rise(over, 0, 6) : -1
  }
  const fruit = pears.map(({ form }) => form)
  const box = { leftMm: 10, topMm: 196, rightMm: 84, bottomMm: 286 }
  const soft = { box, tone: behind(tone, fruit), halfWidthMm: 0.42 }
  hatch(
    canvas,
    {
      ...soft,
      layers: [
        { angleDeg: 164, spacingMm: 0.85, tones: [0.1, 1], press: [0.5, 0.58], strokeMm: 30 },
      ],
    },
    random,
  )
}
