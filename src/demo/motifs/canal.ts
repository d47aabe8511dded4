import { type Point, points, type Written } from '../curve.ts'
import type { Cut } from '../marks/cut.ts'
import { type Hand, leave, peelOut } from '../marks/knife.ts'
import type { Random } from '../random.ts'
import { bridge } from './bridge.ts'
import { houses, type Knife } from './houses.ts'

const MOON = { xMm: 197, yMm: 119, radiusMm: 38 }

/** The night picture of the poster: houses, a cat on a bridge before the moon, water. */
export function canalCuts(random: Random): readonly Cut[] {
  const hand: Hand = { strayMm: 0.09, overcutShare: 0.45, random }
  const open = (ring: Written): readonly Cut[] => peelOut([points(ring)], hand)
  const keep = (ring: Written): readonly Cut[] => leave([points(ring)], hand)
  return [
    ...keep('24,26 273,25.4 273.4,296 23.6,296.4'),
    ...moonAndStars(hand),
    ...houses({ open, keep, random }),
    ...bridge(hand),
    ...cat(keep, open),
    ...water(hand),
    ...boat(open, keep),
  ]
}

function moonAndStars(hand: Hand): readonly Cut[] {
  const { random } = hand
  const corners = 26
  const round = Array.from({ length: corners }, (_, at): Point => {
    const turn = (at / corners) * 2 * Math.PI
    return {
      xMm: MOON.xMm + MOON.radiusMm * Math.cos(turn),
      yMm: MOON.yMm + MOON.radiusMm * Math.sin(turn),
    }
  })
  const clouds: readonly Written[] = [
    '150,99.4 178,97.6 206,98.6 219,97.8 204,100.8 180,101.6 164,103',
    '188,106.4 212,104.6 238,106.4 214,107.6',
    '154,126 170,124.4 183,125 169,126.6',
    '206,88.6 216,87.6 224,88.7 215,89.4',
    '208,133.6 226,132.4 238,133.2 224,134.2',
  ]
  const stars = Array.from({ length: 46 }, (): readonly Cut[] => {
    const xMm = random.between(32, 265)
    const yMm = 34 + 96 * random.share() ** 1.5
    const size = 0.25 + 1.5 * random.share() ** 4
    if (Math.hypot(xMm - MOON.xMm, yMm - MOON.yMm) < MOON.radiusMm + 6 || (yMm > 88 && xMm < 160))
      return []
    const thin = size * random.between(0.28, 0.5)
    const ring = points([
      [xMm, yMm - size],
      [xMm + thin, yMm - thin * 0.4],
      [xMm + size * 0.8, yMm],
      [xMm + thin, yMm + thin * 0.5],
      [xMm, yMm + size],
      [xMm - thin, yMm + thin * 0.3],
      [xMm - size * 0.8, yMm],
      [xMm - thin, yMm - thin * 0.5],
    ])
    return peelOut([size > 0.7 ? ring : ring.filter((_, at) => at % 2 === 0)], {
      ...hand,
      strayMm: 0.05,
    })
  })
  return [
    ...peelOut([round], hand),
    ...clouds.flatMap((ring) => leave([points(ring)], hand)),
    ...stars.flat(),
  ]
}

function cat(keep: Knife, open: Knife): readonly Cut[] {
  return [
    ...keep(`181.6,153.4 180.6,147 183,138.6 188,131.4 189,127 186.6,122.6 187,117.6 188.2,111
      191.6,114.4 195,114.2 198.6,110.6 199.4,117 199.8,121.4 198,125.6 199.4,130 200.8,139
      201.2,150 203.6,153`),
    ...keep(`184,150 178,152.4 174,157 173.6,163.4 176,168 179,168.6 178.2,166.4 176.2,163.4
      176.6,158.4 180,155 186,153.6`),
    ...open('189.6,116.9 191.2,117.3 192.6,118.9 190.6,118.6'),
    ...open('197.6,116.8 197,118.5 194.9,118.9 196.1,117.2'),
    // Whiskers of light against the dark, the finest cuts of the sheet.
    ...open('187.9,120.7 191.8,121.5 187.9,120.9'),
    ...open('188.3,122.2 191.8,122.1 188.4,122.36'),
    ...open('199.2,120.5 195.2,121.4 199.2,120.68'),
    ...open('199,122.1 195.2,122 199,122.24'),
  ]
}

function water(hand: Hand): readonly Cut[] {
  const { random } = hand
  const out: Cut[] = []
  const sliver = (xMm: number, yMm: number, [wide, tall]: readonly [number, number]): void => {
    const lean = random.around(0, 0.4)
    const belly = random.between(-0.3, 0.3) * wide
    out.push(
      ...peelOut(
        [
          points([
            [xMm - wide / 2, yMm + lean],
            [xMm + belly, yMm - tall / 2],
            [xMm + wide / 2, yMm - lean],
            [xMm + belly * 0.6, yMm + tall / 2],
          ]),
        ],
        { ...hand, strayMm: 0.05, overcutShare: 0.2 },
      ),
    )
  }
  // The moon's road, under the arch and out to us.
  for (let y = 206; y < 290; y += random.between(1.7, 2.9)) {
    const near = (y - 206) / 84
    const wide = (9 + 26 * near) * random.between(0.5, 1.15)
    sliver(200 + random.around(0, 2 + 5 * near), y, [
      wide,
      0.35 + 1.25 * near * random.between(0.6, 1.2),
    ])
    if (random.share() < 0.5)
      sliver(200 + random.around(0, 16 + 14 * near), y + 0.8, [wide * 0.35, 0.2 + 0.4 * near])
  }
  for (let at = 0; at < 110; at += 1) {
    const near = random.share()
    const yMm = 234 + 56 * near
    const xMm = random.between(30, 266)
    const wide = (3 + 13 * near) * random.between(0.5, 1.3)
    if ((xMm < 142 && yMm > 236 && yMm < 279) || xMm - wide / 2 < 27 || xMm + wide / 2 > 270)
      continue
    sliver(xMm, yMm, [wide, 0.16 + 0.6 * near * random.share()])
  }
  return out
}

/** A narrow boat lies at the quay: roof and side lit, round windows dark with a glint. */
function boat(open: Knife, keep: Knife): readonly Cut[] {
  const out: Cut[] = []
  out.push(...open('46,245 48,241.6 118,241 121,244.6'))
  out.push(...open('45,246 121.6,245.5 122.4,256 44,256.6'))
  out.push(
    ...open(
      `30,252 40,255.4 42,258.2 128,257.4 138,250.6 141,250.4 134,262 126,265.6 48,266.4 37,262`,
    ),
  )
  out.push(...keep('36,257.4 42,260 128,259.4 135,255.6 134.6,256.6 128,260.4 42,261.2 36.4,258.8'))
  for (let at = 0; at < 5; at += 1) {
    const ring = Array.from({ length: 8 }, (_, corner): readonly [number, number] => {
      const turn = ((corner + 0.5) / 8) * 2 * Math.PI
      return [56 + at * 13.4 + 3.1 * Math.cos(turn), 251 + 3.1 * Math.sin(turn)]
    })
    out.push(...keep(ring))
    out.push(
      ...open(
        ring.map(
          ([x, y]) =>
            [56 + at * 13.4 + (x - 56 - at * 13.4) * 0.62, 251 + (y - 251) * 0.62] as const,
        ),
      ),
    )
    out.push(
      ...keep([
        [54.6 + at * 13.4, 252.6],
        [57.4 + at * 13.4, 249.3],
        [57.7 + at * 13.4, 249.6],
        [55 + at * 13.4, 252.8],
      ]),
    )
  }
  out.push(
    ...open('64,241 64.4,234 66.8,234 67,241'),
    ...keep('64,236.4 67,236.4 67,237.2 64,237.2'),
  )
  out.push(
    ...open('84,240.6 86,237.6 94,237.4 96.6,240.4'),
    ...keep('86.8,240.3 87.6,238.2 93,238 94.4,240.2'),
  )
  for (let at = 0; at < 9; at += 1) {
    const wide = 70 - 6 * at
    out.push(
      ...open([
        [84 - wide / 2 + (at % 3) * 4, 269.6 + at * 2.3],
        [84 + (at % 2) * 7, 269.2 + at * 2.3],
        [84 + wide / 2 - (at % 2) * 6, 269.8 + at * 2.3],
        [86, 270.1 + at * 2.3 + 0.05 * at],
      ]),
    )
  }
  return out
}
