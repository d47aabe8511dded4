import type { Canvas } from '../canvas.ts'
import { knots, points, smoothRing, type Written } from '../curve.ts'
import { brush, drop, pen } from '../marks/brush.ts'
import { wash } from '../marks/wash.ts'
import type { Random } from '../random.ts'
import { drawBoat } from './boat.ts'

const INK = 1.75

/** “Low water”: a fishing boat on the mud, posts, a far shore; A4 landscape, brush and wash. */
export function drawLowWater(canvas: Canvas, random: Random): void {
  paintSky(canvas, random)
  paintFarShore(canvas, random)
  paintMud(canvas, random)
  drawBoat(canvas, random)
  paintPosts(canvas, random)
  paintForeground(canvas, random)
  inkRope(canvas, random)
  flingDrops(canvas, random)
}

function paintSky(canvas: Canvas, random: Random): void {
  const sweepOf = (rows: Written, density: number, dryFromShare: number): void =>
    brush(canvas, knots(rows), {
      density,
      seed: random.seed(),
      dryFromShare,
      dryness: 0.85,
      tuftMm: 0.7,
      edgeMm: 0.5,
      thinned: true,
    })
  sweepOf('292,16,6 256,13,9 214,20,10 170,24,7 120,20,3', 0.62, 0.5)
  sweepOf('291,34,5 262,30,8 228,36,9 192,44,7 152,48,4 112,46,2', 0.66, 0.35)
  sweepOf('292,52,4 268,49,5.5 240,54,4.5 214,60,2.4', 0.6, 0.3)
  sweepOf('9,24,4 36,19,6 70,22,5.5 102,28,3.5 126,33,1.4', 0.62, 0.3)
  wash(canvas, {
    outline: smoothRing(
      points(
        `212,25 226,18 250,8.6 274,10 291,15 290,37 272,36 258,30 240,36 226,42 216,41 209,33`,
      ),
      { stepMm: 3 },
    ),
    density: 0.16,
    run: { from: { xMm: 195, yMm: 34 }, to: { xMm: 285, yMm: 22 }, densityTo: 0.42 },
    rim: 0.22,
    rimMm: 0.7,
    wanderMm: 3,
    net: 0.75,
    blooms: [
      { xMm: 234, yMm: 27, radiusMm: 8 },
      { xMm: 270, yMm: 22, radiusMm: 9 },
      { xMm: 252, yMm: 19, radiusMm: 4 },
    ],
    seed: random.seed(),
  })
  for (const [x, y, size] of [
    [50, 58, 6.2],
    [66, 50, 4.2],
    [82, 60, 3],
    [101, 70, 2.2],
  ] as const) {
    const wing: Written = [
      [x - size, y - size * 0.28, 0.12],
      [x - size * 0.45, y - size * 0.5, 0.42],
      [x, y, 0.22],
      [x + size * 0.5, y - size * 0.62, 0.4],
      [x + size * 1.1, y - size * 0.3, 0.1],
    ]
    brush(canvas, knots(wing), { density: INK, seed: random.seed() })
  }
}

function paintFarShore(canvas: Canvas, random: Random): void {
  // The headland: the palest wash that is meant to print.
  const land = smoothRing(
    points(
      `204,86.6 212,83 224,80.4 234,75 246,72.6 258,67 270,66 280,69 292,68.4 292,87.2 250,87.4`,
    ),
    { stepMm: 3 },
  )
  wash(canvas, {
    outline: land.map(({ xMm, yMm }) => ({ xMm: Math.min(292, xMm), yMm: Math.min(87.2, yMm) })),
    density: 0.46,
    rim: 0.12,
    wanderMm: 0.6,
    net: 0.2,
    seed: random.seed(),
  })
  wash(canvas, {
    outline: points(
      `6,87.6 6,81 16,78 24,78.6 25,75.4 29,75.2 29.4,79.6 42,80.4 50,83 64,86.6 66,87.8`,
    ),
    density: 0.62,
    rim: 0.22,
    wanderMm: 0.5,
    net: 0.3,
    seed: random.seed(),
  })
  const stroke = (rows: Written, dryFromShare = 0.5): void =>
    brush(canvas, knots(rows), {
      density: INK,
      seed: random.seed(),
      dryFromShare,
      dryness: 0.85,
      tuftMm: 0.25,
    })
  stroke('222,88.4,0.2 250,88,0.55 289,87.4,0.25', 0.3)
  stroke('8,89,0.5 34,88.6,0.6 64,88.6,0.15', 0.3)
  // A second boat, far off, and her mooring.
  stroke('240,95.5,0.3 247,98.4,1.5 256,98,1.7 263,94.4,0.4', 0.8)
  stroke('251,97,0.5 250.4,84,0.4 250,71,0.2', 2)
  stroke('253,94,0.3 258,92.8,1.4 260,95,0.6', 2)
  pen(canvas, knots('250,72,0.1 256,84,0.1 263,94,0.12'), { density: 1.5, seed: random.seed() })
  pen(canvas, knots('250,72,0.1 245,84,0.1 240,95,0.12'), { density: 1.5, seed: random.seed() })
  stroke('243,103,0.3 254,102.2,0.8 266,103,0.2', 0.2)
}

function paintMud(canvas: Canvas, random: Random): void {
  const sweepOf = (rows: Written, density: number, dryFromShare: number): void =>
    brush(canvas, knots(rows), {
      density,
      seed: random.seed(),
      dryFromShare,
      dryness: 0.8,
      tuftMm: 0.6,
      edgeMm: 0.4,
      thinned: true,
    })
  sweepOf('62,148,3 110,152,6 170,153,7 230,146,5 291,144,3', 0.66, 0.55)
  sweepOf('290,158,3 240,160,5.5 180,164,5.5 120,161,4 74,157,1.5', 0.56, 0.4)
  sweepOf('88,172,2 140,172,4.4 196,174,4 262,169,1.4', 0.5, 0.35)
  sweepOf('292,106,1.6 262,107,2.6 236,108.5,1.6 224,110,0.6', 0.5, 0.3)
  sweepOf('7,96,1.4 34,97.5,2.4 60,99,1', 0.5, 0.3)
  wash(canvas, {
    outline: smoothRing(
      points('84,146 116,149 152,153 190,150 220,143 236,148 214,158 178,163 136,162 104,156'),
      { stepMm: 3 },
    ),
    density: 0.45,
    rim: 0.3,
    wanderMm: 2.2,
    net: 0.8,
    netMm: 1.9,
    blooms: [
      { xMm: 221, yMm: 150, radiusMm: 6 },
      { xMm: 112, yMm: 155, radiusMm: 5 },
    ],
    seed: random.seed(),
  })
  const stroke = (rows: Written, dryFromShare: number, dryness = 0.85): void =>
    brush(canvas, knots(rows), {
      density: INK,
      seed: random.seed(),
      dryFromShare,
      dryness,
      tuftMm: 0.4,
    })
  stroke('100,149.5,0.8 126,153.6,2.2 160,155.4,2.6 196,152.6,2 222,144.6,0.6', 0.4, 0.7)
  // Her shadow, and the mast broken up in the wet.
  stroke('90,147,1.0 130,155,2.6 176,157,2.8 228,147,0.9', 0.35, 0.8)
  stroke('150,157,1.4 185,157,2.2 232,149,0.5', 0.2, 0.95)
  for (const [y, x, w] of [
    [160, 128, 6],
    [163.6, 131, 5],
    [167, 126, 7],
    [171, 130, 4.4],
    [175.6, 127, 6.4],
    [181, 131, 3.2],
  ] as const) {
    stroke(
      [
        [x - w, y, 0.15],
        [x - w * 0.2, y + random.between(-0.6, 0.6), 0.75],
        [x + w, y + random.between(-0.4, 0.6), 0.12],
      ],
      0.5,
      0.7,
    )
  }
  for (const [x, y, w] of [
    [246, 170, 26],
    [60, 172, 22],
    [222, 178, 18],
    [196, 183, 24],
    [262, 160, 14],
  ] as const) {
    stroke(
      [
        [x - w, y, 0.2],
        [x, y + random.between(-1, 1), 0.8],
        [x + w, y + random.between(-1, 1), 0.15],
      ],
      0.15,
      0.95,
    )
  }
}

function paintPosts(canvas: Canvas, random: Random): void {
  const stroke = (rows: Written, dryFromShare: number, dryness = 0.8): void =>
    brush(canvas, knots(rows), {
      density: INK,
      seed: random.seed(),
      dryFromShare,
      dryness,
      tuftMm: 0.45,
      edgeMm: 0.09,
    })
  stroke('24,92,2.6 23,124,3.3 23.6,160,3.0 22.6,181,2.0', 0.35)
  stroke('42,104,2.0 42.6,130,2.6 41.6,158,2.2 42,170,1.2', 0.5)
  stroke('56.4,116,1.3 56,136,1.8 56.6,156,1.1', 0.3)
  stroke('10.5,98,1.7 11.5,140,2.3 9.6,176,1.2', 0.2, 0.95)
  // The rail that once ran along them.
  stroke('6,116,1.2 26,119.6,1.7 48,125.4,1.1 60,128.8,0.4', 0.45, 0.85)
}

function paintForeground(canvas: Canvas, random: Random): void {
  const stroke = (rows: Written, dryFromShare: number, dryness = 0.85): void =>
    brush(canvas, knots(rows), {
      density: INK,
      seed: random.seed(),
      dryFromShare,
      dryness,
      tuftMm: 0.55,
      edgeMm: 0.12,
    })
  stroke('8,190,3.0 48,186.5,6.2 98,189,5.6 160,197,2.2', 0.18, 0.92)
  stroke('14,199,2.2 60,197,4.4 120,200.5,3.0 176,201,0.9', 0.3, 0.9)
  stroke('286,186,1.2 250,190,4.2 214,195,3.4 180,196,0.6', 0.1, 0.95)
  // Sea grass round the posts, each blade one flick.
  for (let at = 0; at < 46; at += 1) {
    const x = 8 + 58 * random.share()
    const y = random.between(180, 190)
    const tall = random.between(7, 22) * (1 - (0.4 * Math.abs(x - 32)) / 34)
    const lean = random.around(3, 4)
    const wide = random.between(0.22, 0.6)
    brush(
      canvas,
      knots([
        [x, y, wide * 0.6],
        [x + lean * 0.2, y - tall * 0.4, wide],
        [x + lean * 0.55, y - tall * 0.75, wide * 0.6],
        [x + lean * 1.3, y - tall, 0.06],
      ]),
      { density: INK, seed: random.seed(), dryFromShare: 0.5, dryness: 0.5, tuftMm: 0.25 },
    )
  }
}

function inkRope(canvas: Canvas, random: Random): void {
  const line = (rows: Written): void =>
    pen(canvas, knots(rows), { density: 1.6, seed: random.seed() })
  line('70,93,0.28 60,112,0.26 44,121,0.26 25,119,0.3')
  line('70.6,94.5,0.16 61,115,0.15 45,124,0.15 26,121,0.18')
  for (const y of [116.4, 118, 119.6])
    line([
      [19.8, y, 0.3],
      [23.4, y + 1.2, 0.34],
      [26.9, y - 0.2, 0.3],
    ])
  // Signed, with the invented room's letters.
  line(`262.6,196.6,0.14 260.6,194,0.14 262,191.4,0.14 265,192.4,0.14 264.8,195.6,0.14
      262.8,196.6,0.14`)
  line('263.8,195.2,0.14 266.2,197.8,0.14')
  line('268.4,197.4,0.14 269,191.6,0.14 271.6,192.4,0.14 271.4,194.4,0.14 269,195,0.14')
  line(`273.6,197.2,0.14 274.2,191.6,0.14 276.8,192.2,0.14 276.4,194.2,0.14 274.2,194.8,0.14
      277.4,197.6,0.14`)
}

function flingDrops(canvas: Canvas, random: Random): void {
  // Flicked from the left: the far ones small, all drawn out the same way.
  for (let at = 0; at < 90; at += 1) {
    const away = random.share() ** 1.6
    const halfWidthMm = 0.1 + 0.75 * random.share() ** 4 * (1 - 0.5 * away)
    const xMm = 92 + 76 * away + random.around(0, 7)
    const yMm = 181 - 9 * away + random.around(0, 6)
    const flight = random.share() < 0.4 ? halfWidthMm * random.between(2.2, 5) : 0
    drop(
      canvas,
      { xMm, yMm, halfWidthMm, flightXMm: flight, flightYMm: -0.2 * flight },
      { density: INK, seed: random.seed() },
    )
  }
  for (const [xMm, yMm, halfWidthMm] of [
    [238, 124, 0.9],
    [242.5, 127, 0.4],
    [235.6, 129.5, 0.28],
    [246, 122, 0.16],
    [118, 61, 0.3],
  ] as const) {
    drop(canvas, { xMm, yMm, halfWidthMm }, { density: INK, seed: random.seed() })
  }
}
