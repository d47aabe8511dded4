import type { Canvas } from '../canvas.ts'
import { type Knot, knots, type Point, points, smoothRing, type Written } from '../curve.ts'
import { blot } from '../marks/blot.ts'
import { brush, pen } from '../marks/brush.ts'
import { wash } from '../marks/wash.ts'
import type { Random } from '../random.ts'

const INK = 1.75

// The hull between two lines of equally many points, from the bow (left) to the stern.
const SHEER = points('70,91 87,105 112,115.5 145,120.5 178,118.5 203,110 216,102')
const KEEL = points('70,91 77,114 90,132 116,145 150,150 185,147.5 211,139')
const FAR_RAIL = points('70,91 96,98 130,102.5 168,103 202,99.5 214,97.5')

/** A fishing boat sitting in the mud, bow to the left. */
export function drawBoat(canvas: Canvas, random: Random): void {
  paintHullWash(canvas, random)
  paintInside(canvas, random)
  paintPlanks(canvas, random)
  paintWheelhouse(canvas, random)
  paintMast(canvas, random)
  inkRigging(canvas, random)
  paintFenders(canvas, random)
}

/** A line on the hull: 0 the sheer, 1 the keel; from and to are shares of its length. */
function plank(
  depthShare: number,
  {
    from = 0,
    to = 1,
    widths,
  }: Readonly<{ from?: number; to?: number; widths: readonly [number, number, number] }>,
): readonly Knot[] {
  const last = SHEER.length - 1
  const count = 9
  return Array.from({ length: count }, (_, at) => {
    const share = from + ((to - from) * at) / (count - 1)
    const a = placeAt(SHEER, share * last)
    const b = placeAt(KEEL, share * last)
    const t = at / (count - 1)
    const halfWidthMm =
      t < 0.5
        ? widths[0] + (widths[1] - widths[0]) * t * 2
        : widths[1] + (widths[2] - widths[1]) * (t * 2 - 1)
    return {
      xMm: a.xMm + (b.xMm - a.xMm) * depthShare,
      yMm: a.yMm + (b.yMm - a.yMm) * depthShare,
      halfWidthMm,
      load: 1,
    }
  })
}

function placeAt(line: readonly Point[], place: number): Point {
  const at = Math.min(line.length - 2, Math.floor(place))
  const t = place - at
  const a = line[at]
  const b = line[at + 1]
  return { xMm: a.xMm + (b.xMm - a.xMm) * t, yMm: a.yMm + (b.yMm - a.yMm) * t }
}

function paintHullWash(canvas: Canvas, random: Random): void {
  const lower = [0, 1, 2, 3, 4, 5, 6].map((at) => mix(SHEER[at], KEEL[at], 0.34))
  wash(canvas, {
    outline: smoothRing([...lower, ...[...KEEL].reverse()], { stepMm: 3 }),
    density: 0.5,
    run: { from: { xMm: 85, yMm: 110 }, to: { xMm: 205, yMm: 140 }, densityTo: 0.86 },
    rim: 0.35,
    wanderMm: 0.9,
    net: 0.55,
    blooms: [{ xMm: 128, yMm: 134, radiusMm: 8 }],
    seed: random.seed(),
  })
}

function mix(a: Point, b: Point, share: number): Point {
  return { xMm: a.xMm + (b.xMm - a.xMm) * share, yMm: a.yMm + (b.yMm - a.yMm) * share }
}

function paintInside(canvas: Canvas, random: Random): void {
  wash(canvas, {
    outline: smoothRing([...FAR_RAIL, ...[...SHEER].reverse().slice(1, -1)], { stepMm: 3 }),
    density: 0.95,
    run: { from: { xMm: 80, yMm: 100 }, to: { xMm: 205, yMm: 105 }, densityTo: 1.15 },
    rim: 0.2,
    wanderMm: 0.5,
    net: 0.35,
    seed: random.seed(),
  })
  const rail: Written = FAR_RAIL.map((point, at) => [
    point.xMm,
    point.yMm,
    0.35 + 0.5 * Math.sin((at / 5) * Math.PI),
  ])
  brush(canvas, knots(rail), { density: INK, seed: random.seed(), edgeMm: 0.06 })
  brush(canvas, knots('100,106,1.4 122,110,2.6 150,113,2.2 168,112,0.8'), {
    density: INK,
    seed: random.seed(),
    dryFromShare: 0.4,
    dryness: 0.8,
  })
}

function paintPlanks(canvas: Canvas, random: Random): void {
  const stroke = (
    path: readonly Knot[],
    more: Readonly<{ dryFromShare?: number; dryness?: number }> = {},
  ): void => brush(canvas, path, { density: INK, seed: random.seed(), tuftMm: 0.42, ...more })
  // The rubbing strake: one full brush from the bow, running dry at the stern.
  stroke(plank(0.03, { widths: [0.7, 2.5, 1.5] }), { dryFromShare: 0.72, dryness: 0.55 })
  stroke(plank(0.2, { from: 0.06, widths: [0.2, 0.7, 0.3] }), { dryFromShare: 0.6, dryness: 0.6 })
  stroke(plank(0.36, { from: 0.05, to: 0.97, widths: [0.25, 1.0, 0.3] }), {
    dryFromShare: 0.75,
    dryness: 0.7,
  })
  stroke(plank(0.52, { from: 0.1, to: 0.99, widths: [0.2, 0.8, 0.5] }), {
    dryFromShare: 0.5,
    dryness: 0.85,
  })
  stroke(plank(0.67, { from: 0.22, to: 0.98, widths: [0.3, 1.5, 0.9] }), {
    dryFromShare: 0.35,
    dryness: 0.8,
  })
  // The turn of the bilge in shadow: broad and half dry.
  stroke(plank(0.82, { from: 0.36, to: 1, widths: [1.2, 4.4, 3] }), {
    dryFromShare: 0.15,
    dryness: 0.78,
  })
  stroke(plank(0.93, { from: 0.24, to: 0.99, widths: [0.6, 3.1, 2.2] }), {
    dryFromShare: 0.55,
    dryness: 0.5,
  })
  stroke(plank(1, { widths: [0.8, 1.7, 1.0] }), { dryFromShare: 0.9, dryness: 0.4 })
  // Stem and transom, pressed.
  stroke(knots('68.6,87,1.1 71,97,1.7 76.5,113,1.5 86,128,1.1 93,135,0.4'))
  stroke(knots('217.5,97.5,1.0 217.5,112,1.9 214,130,1.6 210,141,0.7'), {
    dryFromShare: 0.7,
    dryness: 0.6,
  })
  stroke(knots('206,115,0.5 210,120,2.6 208.5,132,2.1 204,141,0.4'), {
    dryFromShare: 0.2,
    dryness: 0.8,
  })
}

function paintWheelhouse(canvas: Canvas, random: Random): void {
  wash(canvas, {
    outline: points('170,75 199,73 201,104 186,110.5 170,112'),
    density: 0.66,
    run: { from: { xMm: 170, yMm: 90 }, to: { xMm: 201, yMm: 90 }, densityTo: 1.0 },
    rim: 0.3,
    wanderMm: 0.5,
    net: 0.3,
    seed: random.seed(),
  })
  const stroke = (rows: Written, dryFromShare = 2): void =>
    brush(canvas, knots(rows), { density: INK, seed: random.seed(), dryFromShare, dryness: 0.7 })
  stroke('164.5,74.6,0.9 180,72.4,1.7 206.5,70.4,1.1', 0.8)
  stroke('170,75,0.7 169.6,94,0.95 170,115,0.5')
  stroke('200,72.5,1.0 201,90,1.5 202,108,0.9')
  stroke('187,74,0.4 187,92,0.6 187.5,108,0.3', 0.7)
  for (const [x, y, w] of [
    [172.6, 79.4, 5.2],
    [179.6, 79, 5.2],
    [189.4, 78.6, 4.0],
    [195, 78.2, 3.6],
  ] as const) {
    const pane = points([
      [x, y],
      [x + w, y - 0.3],
      [x + w - 0.2, y + 8.2],
      [x + 0.2, y + 8.7],
    ])
    blot(canvas, pane, { density: INK, edgeMm: 0.14, seed: random.seed() })
  }
  stroke('192,92,2.2 196,96,3.0 197.5,106,2.4', 0.25)
}

function paintMast(canvas: Canvas, random: Random): void {
  const stroke = (rows: Written, dryFromShare = 2, dryness = 0.7): void =>
    brush(canvas, knots(rows), { density: INK, seed: random.seed(), dryFromShare, dryness })
  stroke('139,119,1.9 136.4,80,1.5 133.6,42,1.15 131.6,14,0.55', 0.9, 0.4)
  stroke('137.4,104,0.9 152,84,1.1 168,60,0.7 174,50.6,0.35')
  // The sail, furled along the boom: three loads of the brush and the cords round it.
  stroke('140,96,1.0 148,86.5,3.0 158,72.5,3.4 167,60,1.2', 0.45, 0.75)
  stroke('141,99.5,0.6 150,89.5,2.0 160,75.5,2.3 168.5,62.5,0.6', 0.3, 0.9)
  stroke('138.6,94,0.5 146,83.5,1.3 155,71.5,1.2 163,60.6,0.3', 0.55, 0.8)
  // Pennant, yard and block.
  stroke('131.8,15,0.3 138,14,1.5 145,17,0.9 150,15.2,0.15', 0.4, 0.8)
  stroke('124,33.4,0.35 133,31.6,0.6 143,32.6,0.3')
}

function inkRigging(canvas: Canvas, random: Random): void {
  const line = (rows: Written): void =>
    pen(canvas, knots(rows), { density: 1.6, seed: random.seed() })
  line('131.8,16,0.16 101,54,0.14 70.5,90,0.17')
  line('132,18,0.15 176,62,0.13 216,99,0.17')
  line('133,33,0.13 124,66,0.13 116,101,0.16')
  line('133.4,33,0.13 129,68,0.12 123.5,102,0.15')
  line('134,33,0.13 146,70,0.12 154,103,0.15')
  line('174,50.6,0.12 152,32,0.1 132.6,20,0.12')
  line('174,50.6,0.13 190,62,0.11 204,70.4,0.13')
  for (let at = 0; at < 9; at += 1) {
    const t = 0.1 + at * 0.1
    const wobble = random.between(-0.3, 0.3)
    line([
      [133 - 17 * t, 33 + 68 * t, 0.1],
      [133.4 - 9.9 * t, 33 + 69 * t + wobble, 0.1],
    ])
  }
  // Cords round the furled sail.
  for (const t of [0.12, 0.3, 0.48, 0.66, 0.84]) {
    const x = 141 + 27 * t
    const y = 98 - 38 * t
    line([
      [x - 3.6, y - 1.6, 0.2],
      [x - 0.4, y + 2.4, 0.24],
      [x + 3, y + 3, 0.12],
    ])
  }
}

function paintFenders(canvas: Canvas, random: Random): void {
  for (const [x, y, r] of [
    [112, 124.6, 3.6],
    [133, 128.4, 3.8],
    [160, 129.4, 3.9],
  ] as const) {
    const ring: Written = Array.from({ length: 13 }, (_, at) => {
      const turn = 0.6 + (at / 12) * 6.6
      return [x + Math.cos(turn) * r * 0.8, y + Math.sin(turn) * r, 0.75 + 0.35 * Math.sin(turn)]
    })
    brush(canvas, knots(ring), {
      density: INK,
      seed: random.seed(),
      dryFromShare: 0.7,
      dryness: 0.5,
      edgeMm: 0.06,
    })
    pen(
      canvas,
      knots([
        [x - 0.2, y - r, 0.16],
        [x - 0.6, y - r - 5.5, 0.14],
      ]),
      { density: 1.6, seed: random.seed() },
    )
  }
}
