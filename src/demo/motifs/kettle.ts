import type { Canvas } from '../canvas.ts'
import { knots, points, type KnotRow } from '../curve.ts'
import { hatch, type Tone } from '../marks/hatch.ts'
import { develop, lift, rub, smudge } from '../marks/pencil.ts'
import { rise } from '../noise.ts'
import type { Random } from '../random.ts'
import { depthAt, depthsOf, type Depths } from '../shape.ts'
import { behind, modelled, pearOutline, placed, thing, type Placed, type Thing } from './still.ts'

const UPRIGHT: Placed = { xMm: 151, yMm: 186, sizeMm: 27, turnDeg: 9 }
const LYING: Placed = { xMm: 96, yMm: 217, sizeMm: 25, turnDeg: -72 }
const SMALL: Placed = { xMm: 172, yMm: 226, sizeMm: 21, turnDeg: -16 }

const BODY = thing(
  points([[92, 104], [112, 108], [128, 122], [135, 144], [132, 164], [122, 178], [92, 183], [62, 178], [52, 164], [49, 144], [56, 122], [72, 108]]),
  { localTone: 0.16 },
)
const SPOUT = thing(
  points([[66, 168], [52, 161], [41, 147], [34, 128], [28, 116], [18, 111], [19, 107.4], [23, 102.6], [35, 106], [43, 118], [50, 129], [60, 134], [70, 150]]),
  { localTone: 0.16 },
)
const LID = thing(points([[92, 94], [110, 98], [116, 105], [106, 110], [92, 111.4], [78, 110], [68, 105], [74, 98]]), { localTone: 0.2 })
const KNOB = thing(points([[92, 84.4], [97.6, 87], [97.4, 92], [92, 94.6], [86.6, 92], [86.4, 87]]), { localTone: 0.6 })
const PEARS = [UPRIGHT, LYING, SMALL].map((place) => thing(pearOutline(place), { localTone: 0.22 }))

/** “Kettle and three pears”: soft pencil on grained film, A4 portrait. */
export function drawKettle(canvas: Canvas, random: Random): void {
  constructLines(canvas, random)
  hatchWall(canvas, random)
  hatchTable(canvas, random)
  hatchCloth(canvas, random)
  drawKettleBody(canvas, random)
  PEARS.forEach((pear, at) => drawPear(canvas, { pear, place: [UPRIGHT, LYING, SMALL][at], front: PEARS.slice(at + 1) }, random))
  sign(canvas, random)
  develop(canvas, { seed: random.seed() })
  smudge(canvas, knots([[92, 243, 5, 0.3], [112, 247, 7], [134, 244, 4, 0.3]]), { density: 0.07, seed: random.seed() })
  smudge(canvas, knots([[150, 104, 6, 0.3], [168, 88, 9], [182, 66, 6, 0.2]]), { density: 0.07, seed: random.seed() })
  smudge(canvas, knots([[151, 100, 4, 0.3], [172, 84, 5], [188, 60, 3, 0.2]]), { density: 0.05, seed: random.seed() })
  lift(canvas, knots([[104, 116, 1.4, 0.4], [111, 124, 2.6], [115, 134, 1.2, 0.4]]), { takenShare: 0.8, seed: random.seed() })
}

type Line = (rows: readonly KnotRow[], passes?: number) => void

/** A drawn line: each pass strays a little from the one before. */
function lineOf(canvas: Canvas, random: Random): Line {
  return (rows, passes = 1) => {
    for (let pass = 0; pass < passes; pass += 1) {
      const path = rows.map(([x, y, halfWidthMm = 0.3, load = 0.8]): KnotRow => {
        return [x + random.around(0, 0.22), y + random.around(0, 0.22), halfWidthMm, load * random.between(0.8, 1.1)]
      })
      rub(canvas, knots(path), { seed: random.seed() })
    }
  }
}

function constructLines(canvas: Canvas, random: Random): void {
  const line = lineOf(canvas, random)
  const faint = (rows: readonly (readonly [number, number])[]): void => line(rows.map(([x, y]) => [x, y, 0.24, 0.28]))
  faint([[92, 66], [92.6, 120], [92, 200]])
  faint([[36, 104], [90, 103.4], [150, 104]])
  faint([[40, 183.4], [92, 184], [146, 183]])
  faint([[49, 90], [49, 140], [48.4, 194]])
  faint([[135, 92], [135.4, 140], [135, 192]])
  faint([[146, 148], [151, 186], [155.4, 222]])
  faint([[120, 209], [96, 217], [70, 225]])
  for (const [x, y, across, down] of [[92, 104, 25, 6], [92, 144, 44, 11], [92, 182, 31, 7.6], [153, 196, 27, 27]] as const) {
    const ring = Array.from({ length: 19 }, (_, at): readonly [number, number] => {
      const turn = 2.4 + (at / 18) * 6.7
      return [x + Math.cos(turn) * across, y + Math.sin(turn) * down]
    })
    faint(ring)
  }
}

function everything(): readonly Thing[] {
  return [BODY, SPOUT, LID, KNOB, ...PEARS]
}

const TABLE_MM = 128
const TABLE_EDGE_MM = 252

function hatchWall(canvas: Canvas, random: Random): void {
  // Darker behind the lit side, fading to the right; the hand leaves the sheet's edge free.
  const tone: Tone = (x, y) => {
    if (y > TABLE_MM || y < 22 || x < 14 || x > 196) return -1
    const edge = rise(x, 12, 30) * rise(y, 20, 58) * rise(198 - x, 0, 20)
    const handle = 0.16 * rise(40 - Math.hypot(x - 92, (y - 92) * 1.1), 0, 30)
    return edge * (0.62 - 0.44 * rise(x, 40, 170) + 0.2 * rise(y, 70, TABLE_MM)) - handle
  }
  const wall = behind(tone, everything())
  const box = { leftMm: 10, topMm: 18, rightMm: 200, bottomMm: TABLE_MM }
  const soft = { box, tone: wall, halfWidthMm: 0.45 }
  hatch(canvas, { ...soft, angleDeg: 122, spacingMm: 1.25, fromTone: 0.08, fullTone: 0.8, press: [0.2, 0.7], strokeMm: 34, bowMm: 6 }, random)
  hatch(canvas, { ...soft, angleDeg: 104, spacingMm: 1.4, fromTone: 0.4, fullTone: 0.9, press: [0.25, 0.7], strokeMm: 26 }, random)
}

const SHADOWS: readonly Depths[] = [
  points([[62, 181], [92, 186], [124, 180], [134, 168], [158, 170], [190, 178], [196, 186], [170, 190], [128, 192], [86, 191]]),
  points([[138, 212], [152, 214], [170, 206], [192, 206], [200, 211], [188, 217], [160, 219], [142, 217]]),
  points([[72, 228], [96, 239], [116, 236], [126, 232], [146, 238], [138, 245], [106, 247], [80, 241]]),
  points([[160, 246], [174, 248], [188, 241], [200, 243], [201, 248], [184, 253], [166, 252]]),
].map((outline) => depthsOf(outline, { cellMm: 1, marginMm: 6 }))

function hatchTable(canvas: Canvas, random: Random): void {
  const tone: Tone = (x, y) => {
    if (y < TABLE_MM || y > TABLE_EDGE_MM || x < 14 || x > 202 || depthAt(CLOTH_DEPTHS, x, y) > -0.5) return -1
    const shadow = Math.max(...SHADOWS.map((depths) => rise(depthAt(depths, x, y), -1.4, 3.4)))
    return 0.06 + 0.22 * rise(x, 60, 200) * rise(y, 250, 140) + 0.78 * shadow
  }
  const table = behind(tone, everything())
  const line = lineOf(canvas, random)
  const box = { leftMm: 10, topMm: TABLE_MM, rightMm: 204, bottomMm: 262 }
  const soft = { box, tone: table, halfWidthMm: 0.42 }
  hatch(canvas, { ...soft, angleDeg: 3, spacingMm: 1.3, fromTone: 0.1, fullTone: 0.9, press: [0.25, 0.95], strokeMm: 40 }, random)
  hatch(canvas, { ...soft, angleDeg: -24, spacingMm: 1.05, fromTone: 0.4, fullTone: 0.9, press: [0.4, 0.95], strokeMm: 22 }, random)
  hatch(canvas, { ...soft, angleDeg: 38, spacingMm: 1.2, fromTone: 0.62, fullTone: 0.95, press: [0.4, 0.9], strokeMm: 16 }, random)
  // The front of the table, in its own shadow.
  const frontTone: Tone = (x, y) => {
    if (y < TABLE_EDGE_MM + 1 || y > 280 || x < 80 || x > 202 || depthAt(CLOTH_DEPTHS, x, y) > -0.5) return -1
    return 0.75 * rise(278 - y, 0, 24) + 0.3 * rise(x, 110, 76)
  }
  const front = { box: { leftMm: 78, topMm: TABLE_EDGE_MM, rightMm: 204, bottomMm: 282 }, tone: frontTone, halfWidthMm: 0.42 }
  hatch(canvas, { ...front, angleDeg: 84, spacingMm: 1.15, fromTone: 0.1, fullTone: 1, press: [0.25, 0.85], strokeMm: 26 }, random)
  hatch(canvas, { ...front, angleDeg: 58, spacingMm: 1.3, fromTone: 0.5, fullTone: 1, press: [0.3, 0.7], strokeMm: 16 }, random)
  line([[79, TABLE_EDGE_MM + 0.6, 0.35, 0.9], [120, TABLE_EDGE_MM, 0.4, 1], [164, TABLE_EDGE_MM + 0.4, 0.4, 0.9], [203, TABLE_EDGE_MM, 0.3, 0.5]], 2)
  line([[14, 128.6, 0.3, 0.5], [34, 128, 0.35, 0.7], [48, 128.2, 0.3, 0.5]], 2)
  line([[134, 128.4, 0.3, 0.4], [164, 127.6, 0.35, 0.7], [198, 128.2, 0.3, 0.3]], 2)
}

const CLOTH = points([[15, 212], [38, 204], [60, 199], [78, 251], [80, 268], [70, 281], [55, 274], [40, 284], [27, 276], [14, 282], [14, 252]])
const CLOTH_DEPTHS = depthsOf(CLOTH, { cellMm: 1, marginMm: 4 })

/** A striped cloth over the table's edge, in a light hand: the weakest marks of the sheet. */
function hatchCloth(canvas: Canvas, random: Random): void {
  const line = lineOf(canvas, random)
  line([[14, 212.4, 0.3, 0.4], [38, 204, 0.3, 0.5], [60, 199, 0.3, 0.42], [70, 226, 0.3, 0.5], [78, 251, 0.3, 0.5], [80, 268, 0.3, 0.5], [70, 281, 0.3, 0.42]])
  line([[70, 281, 0.3, 0.5], [55, 274, 0.3, 0.45], [40, 284, 0.3, 0.5], [27, 276, 0.3, 0.4], [14, 282, 0.3, 0.4]])
  for (const [x, tall] of [[27, 22], [55, 20], [69, 14]] as const) {
    line([[x + 1, 253, 0.4, 0.3], [x, 253 + tall * 0.5, 0.4, 0.5], [x - 0.4, 253 + tall, 0.3, 0.3]], 2)
  }
  const tone: Tone = (x, y) => {
    if (depthAt(CLOTH_DEPTHS, x, y) < 0.4) return -1
    // On the table the stripes run away from us; over the edge they hang, and sway with the folds.
    const over = Math.max(0, y - TABLE_EDGE_MM)
    const across = y < TABLE_EDGE_MM ? x - 0.34 * (y - TABLE_EDGE_MM) : x + 1.6 * Math.sin(x * 0.23) * rise(over, 0, 24)
    const place = (((across - 3) % 11) + 11) % 11
    return place < 5.4 || (place > 7 && place < 8) ? 0.7 + 0.3 * rise(over, 0, 6) : -1
  }
  const box = { leftMm: 10, topMm: 196, rightMm: 84, bottomMm: 286 }
  const soft = { box, tone: behind(tone, PEARS), halfWidthMm: 0.42, fromTone: 0.1, fullTone: 1 }
  hatch(canvas, { ...soft, angleDeg: 164, spacingMm: 0.95, press: [0.38, 0.46], strokeMm: 30 }, random)
}

function drawKettleBody(canvas: Canvas, random: Random): void {
  const forms: readonly (readonly [Thing, readonly Thing[], number, number])[] = [
    [SPOUT, [BODY], 58, 0],
    [BODY, [LID, ...PEARS], 78, -10],
    [LID, [KNOB], 12, -3],
    [KNOB, [], 40, 0],
  ]
  for (const [form, front, angleDeg, bowMm] of forms) {
    const tone = behind(modelled(form), front)
    const soft = { box: form.box, tone, halfWidthMm: 0.38 }
    hatch(canvas, { ...soft, angleDeg, bowMm, spacingMm: 0.95, fromTone: 0.2, fullTone: 0.9, press: [0.2, 1], strokeMm: 24 }, random)
    hatch(canvas, { ...soft, angleDeg: angleDeg + 28, spacingMm: 1.05, fromTone: 0.46, fullTone: 0.9, press: [0.3, 1], strokeMm: 16 }, random)
    hatch(canvas, { ...soft, angleDeg: angleDeg - 52, spacingMm: 1.05, fromTone: 0.64, fullTone: 0.95, press: [0.4, 1.1], strokeMm: 12 }, random)
    contour(canvas, form, front, random)
  }
  const line = lineOf(canvas, random)
  // Handle: a wire bow over the lid with a turned wooden grip.
  line([[57, 121, 0.6, 1.1], [54, 98, 0.6, 1], [64, 74, 0.6, 1.1], [78, 64.6, 0.6, 1.1]], 3)
  line([[127, 121, 0.6, 1.2], [131, 98, 0.65, 1.2], [121, 74, 0.6, 1.2], [106, 64.4, 0.6, 1.2]], 3)
  line([[60.4, 118, 0.25, 0.7], [57.6, 98, 0.25, 0.7], [67, 77, 0.25, 0.6]], 1)
  line([[76, 63.8, 1.2, 1], [92, 59.6, 1.5, 1.1], [108, 63.8, 1.2, 1.1]], 3)
  line([[77, 67.4, 1.0, 1.1], [92, 63.6, 1.3, 1.1], [107, 67.4, 1.0, 1.2]], 3)
  // Enamel rim and the dark line under the lid.
  line([[67, 108, 0.4, 0.8], [80, 112.6, 0.45, 1.1], [92, 113.6, 0.5, 1.2], [106, 112.4, 0.5, 1.3], [118, 107.6, 0.4, 1.2]], 2)
  line([[56, 174, 0.4, 0.6], [74, 181, 0.45, 0.9], [92, 182.6, 0.6, 1.1], [112, 180.6, 0.7, 1.2], [127, 173.6, 0.5, 1.1]], 2)
}

/** The outline in short passes: pressed on the shadow side, nearly lost in the light. */
function contour(canvas: Canvas, form: Thing, front: readonly Thing[], random: Random): void {
  const { outline } = form
  const middle = { xMm: (form.box.leftMm + form.box.rightMm) / 2, yMm: (form.box.topMm + form.box.bottomMm) / 2 }
  const tall = Math.max(form.box.bottomMm - form.box.topMm, form.box.rightMm - form.box.leftMm) / 2
  const line = lineOf(canvas, random)
  for (let pass = 0; pass < 2; pass += 1) {
    let at = Math.floor(random.between(0, 8))
    while (at < outline.length) {
      const length = Math.floor(random.between(8, 18))
      const rows: KnotRow[] = []
      for (let step = at; step <= at + length; step += 2) {
        const point = outline[step % outline.length]
        if (front.some(({ depths }) => depthAt(depths, point.xMm, point.yMm) > 0.4)) break
        const shade = ((point.xMm - middle.xMm) * 0.66 + (point.yMm - middle.yMm) * 0.75) / tall
        rows.push([point.xMm, point.yMm, 0.26 + 0.12 * shade, 0.62 + 0.5 * shade])
      }
      if (rows.length > 1) line(rows)
      at += length - Math.floor(random.between(0, 3))
    }
  }
}

function drawPear(
  canvas: Canvas,
  { pear, place, front }: Readonly<{ pear: Thing; place: Placed; front: readonly Thing[] }>,
  random: Random,
): void {
  const tone = behind(modelled(pear), front)
  const soft = { box: pear.box, tone, halfWidthMm: 0.36 }
  const { turnDeg } = place
  hatch(canvas, { ...soft, angleDeg: turnDeg + 62, bowMm: -5, spacingMm: 0.85, fromTone: 0.14, fullTone: 1, press: [0.2, 0.95], strokeMm: 15 }, random)
  hatch(canvas, { ...soft, angleDeg: turnDeg + 20, bowMm: 4, spacingMm: 0.95, fromTone: 0.44, fullTone: 0.95, press: [0.3, 1], strokeMm: 12 }, random)
  hatch(canvas, { ...soft, angleDeg: turnDeg + 100, spacingMm: 0.95, fromTone: 0.62, fullTone: 0.95, press: [0.4, 1.1], strokeMm: 10 }, random)
  contour(canvas, pear, front, random)
  const line = lineOf(canvas, random)
  const at = (x: number, y: number, halfWidthMm: number, load: number): KnotRow => {
    const { xMm, yMm } = placed(place, x, y)
    return [xMm, yMm, halfWidthMm, load]
  }
  line([at(0.02, -1.0, 0.7, 1.3), at(0.04, -1.24, 0.55, 1.3), at(0.14, -1.46, 0.8, 1.3)], 3)
  line([at(-0.2, -0.98, 0.3, 0.8), at(0, -0.93, 0.4, 1.1), at(0.2, -0.97, 0.3, 0.8)], 2)
  // Freckles of the skin: the point set down and turned.
  for (let count = 0; count < 30; count += 1) {
    const { xMm, yMm } = placed(place, random.around(0.02, 0.28), random.around(0.36, 0.26))
    const end = { xMm: xMm + random.between(0.1, 0.35), yMm: yMm + random.between(-0.1, 0.1), halfWidthMm: 0.2, load: 0.5 }
    rub(canvas, [{ xMm, yMm, halfWidthMm: 0.24, load: 0.9 }, end], { seed: random.seed() })
  }
}

function sign(canvas: Canvas, random: Random): void {
  const line = lineOf(canvas, random)
  line([[171, 287.6, 0.25, 0.8], [168.6, 285, 0.25, 0.8], [170, 281.6, 0.25, 0.8], [173.4, 282.4, 0.25, 0.8], [173, 286.4, 0.25, 0.8], [171, 287.6, 0.25, 0.6]])
  line([[172, 286, 0.25, 0.8], [174.6, 289, 0.25, 0.7]])
  line([[177, 288.6, 0.25, 0.8], [177.4, 282, 0.25, 0.8], [180.4, 282.6, 0.25, 0.8], [180, 285, 0.25, 0.8], [177.4, 285.6, 0.25, 0.7]])
  line([[182.6, 288.6, 0.25, 0.8], [183, 282, 0.25, 0.8], [186, 282.6, 0.25, 0.8], [185.6, 285, 0.25, 0.8], [183.2, 285.4, 0.25, 0.8], [186.6, 288.8, 0.25, 0.7]])
}
