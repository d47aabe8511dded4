import type { Canvas } from '../canvas.ts'
import { knots, rowsOf, type Written } from '../curve.ts'
import { hatch } from '../marks/hatch.ts'
import { develop, lift, rub, smudge } from '../marks/pencil.ts'
import type { Random } from '../random.ts'
import { contour, lineOf } from './contour.ts'
import { hatchCloth, hatchFront, hatchTable, hatchWall } from './room.ts'
import { behind, modelled, placed, type Thing } from './still.ts'
import { layTable, type Pear, type StillLife } from './table.ts'

/** “Kettle and three pears”: soft pencil on grained film, A4 portrait. */
export function drawKettle(canvas: Canvas, random: Random): void {
  const life = layTable()
  constructLines(canvas, random)
  hatchWall(canvas, life, random)
  hatchTable(canvas, life, random)
  hatchFront(canvas, life, random)
  hatchCloth(canvas, life, random)
  drawKettleBody(canvas, life, random)
  life.pears.forEach((pear, at) => {
    const front = life.pears.slice(at + 1).map(({ form }) => form)
    drawPear(canvas, { pear, front }, random)
  })
  sign(canvas, random)
  develop(canvas, { seed: random.seed() })
  smudge(canvas, knots('92,243,5,0.3 112,247,7 134,244,4,0.3'), {
    density: 0.07,
    seed: random.seed(),
  })
  smudge(canvas, knots('150,104,6,0.3 168,88,9 182,66,6,0.2'), {
    density: 0.07,
    seed: random.seed(),
  })
  smudge(canvas, knots('151,100,4,0.3 172,84,5 188,60,3,0.2'), {
    density: 0.05,
    seed: random.seed(),
  })
  lift(canvas, knots('104,116,1.4,0.4 111,124,2.6 115,134,1.2,0.4'), {
    takenShare: 0.8,
    seed: random.seed(),
  })
}

function constructLines(canvas: Canvas, random: Random): void {
  const line = lineOf(canvas, random, 1)
  const faint = (rows: Written): void => line(rowsOf(rows).map(([x, y]) => [x, y, 0.24, 0.1]))
  faint('92,66 92.6,120 92,200')
  faint('36,104 90,103.4 150,104')
  faint('40,183.4 92,184 146,183')
  faint('49,90 49,140 48.4,194')
  faint('135,92 135.4,140 135,192')
  faint('146,148 151,186 155.4,222')
  faint('120,209 96,217 70,225')
  for (const [x, y, across, down] of [
    [92, 104, 25, 6],
    [92, 144, 44, 11],
    [92, 182, 31, 7.6],
    [153, 196, 27, 27],
  ] as const) {
    const ring = Array.from({ length: 19 }, (_, at): readonly [number, number] => {
      const turn = 2.4 + (at / 18) * 6.7
      return [x + Math.cos(turn) * across, y + Math.sin(turn) * down]
    })
    faint(ring)
  }
}

function drawKettleBody(
  canvas: Canvas,
  { spout, body, lid, knob, pears }: StillLife,
  random: Random,
): void {
  const forms: readonly (readonly [Thing, readonly Thing[], number, number])[] = [
    [spout, [body], 58, 0],
    [body, [lid, ...pears.map((pear) => pear.form)], 78, -10],
    [lid, [knob], 12, -3],
    [knob, [], 40, 0],
  ]
  for (const [form, front, angleDeg, bowMm] of forms) {
    const tone = behind(modelled(form), front)
    const soft = { box: form.box, tone, halfWidthMm: 0.38 }
    hatch(
      canvas,
      {
        ...soft,
        layers: [
          { angleDeg, spacingMm: 0.95, tones: [0.2, 0.9], press: [0.38, 1], strokeMm: 24, bowMm },
          {
            angleDeg: angleDeg + 28,
            spacingMm: 1.05,
            tones: [0.46, 0.9],
            press: [0.38, 1],
            strokeMm: 16,
          },
          {
            angleDeg: angleDeg - 52,
            spacingMm: 1.05,
            tones: [0.64, 0.95],
            press: [0.4, 1.1],
            strokeMm: 12,
          },
        ],
      },
      random,
    )
    contour(canvas, { form, front }, random)
  }
  const line = lineOf(canvas, random)
  // Handle: a wire bow over the lid with a turned wooden grip.
  line('57,121,0.6,1.1 54,98,0.6,1 64,74,0.6,1.1 78,64.6,0.6,1.1', 3)
  line('127,121,0.6,1.2 131,98,0.65,1.2 121,74,0.6,1.2 106,64.4,0.6,1.2', 3)
  line('60.4,118,0.25,0.7 57.6,98,0.25,0.7 67,77,0.25,0.6', 1)
  line('76,63.8,1.2,1 92,59.6,1.5,1.1 108,63.8,1.2,1.1', 3)
  line('77,67.4,1.0,1.1 92,63.6,1.3,1.1 107,67.4,1.0,1.2', 3)
  // Enamel rim and the dark line under the lid.
  line(`67,108,0.4,0.8 80,112.6,0.45,1.1 92,113.6,0.5,1.2 106,112.4,0.5,1.3 118,107.6,0.4,1.2`, 2)
  line(`56,174,0.4,0.6 74,181,0.45,0.9 92,182.6,0.6,1.1 112,180.6,0.7,1.2 127,173.6,0.5,1.1`, 2)
}

function drawPear(
  canvas: Canvas,
  { pear, front }: Readonly<{ pear: Pear; front: readonly Thing[] }>,
  random: Random,
): void {
  const { form, place } = pear
  const tone = behind(modelled(form), front)
  const soft = { box: form.box, tone, halfWidthMm: 0.36 }
  const { turnDeg } = place
  hatch(
    canvas,
    {
      ...soft,
      layers: [
        {
          angleDeg: turnDeg + 62,
          spacingMm: 0.85,
          tones: [0.14, 1],
          press: [0.38, 1],
          strokeMm: 15,
          bowMm: -5,
        },
        {
          angleDeg: turnDeg + 20,
          spacingMm: 0.95,
          tones: [0.44, 0.95],
          press: [0.38, 1],
          strokeMm: 12,
          bowMm: 4,
        },
        {
          angleDeg: turnDeg + 100,
          spacingMm: 0.95,
          tones: [0.62, 0.95],
          press: [0.4, 1.1],
          strokeMm: 10,
        },
      ],
    },
    random,
  )
  contour(canvas, { form, front }, random)
  const line = lineOf(canvas, random)
  const at = (x: number, y: number, halfWidthMm: number, load: number) => {
    const { xMm, yMm } = placed(place, x, y)
    return [xMm, yMm, halfWidthMm, load]
  }
  line([at(0.02, -1.0, 0.7, 1.3), at(0.04, -1.24, 0.55, 1.3), at(0.14, -1.46, 0.8, 1.3)], 3)
  line([at(-0.2, -0.98, 0.3, 0.8), at(0, -0.93, 0.4, 1.1), at(0.2, -0.97, 0.3, 0.8)], 2)
  // Freckles of the skin: the point set down and turned.
  for (let count = 0; count < 30; count += 1) {
    const { xMm, yMm } = placed(place, random.around(0.02, 0.28), random.around(0.36, 0.26))
    const end = {
      xMm: xMm + random.between(0.1, 0.35),
      yMm: yMm + random.between(-0.1, 0.1),
      halfWidthMm: 0.2,
      load: 0.5,
    }
    rub(canvas, [{ xMm, yMm, halfWidthMm: 0.24, load: 0.9 }, end], { seed: random.seed() })
  }
}

function sign(canvas: Canvas, random: Random): void {
  const line = lineOf(canvas, random)
  line(`171,287.6,0.25,0.8 168.6,285,0.25,0.8 170,281.6,0.25,0.8 173.4,282.4,0.25,0.8
      173,286.4,0.25,0.8 171,287.6,0.25,0.6`)
  line('172,286,0.25,0.8 174.6,289,0.25,0.7')
  line(`177,288.6,0.25,0.8 177.4,282,0.25,0.8 180.4,282.6,0.25,0.8 180,285,0.25,0.8
      177.4,285.6,0.25,0.7`)
  line(`182.6,288.6,0.25,0.8 183,282,0.25,0.8 186,282.6,0.25,0.8 185.6,285,0.25,0.8
      183.2,285.4,0.25,0.8 186.6,288.8,0.25,0.7`)
}
