import { points, type Point } from '../curve.ts'
import { stays, type Cut } from '../marks/cut.ts'
import { leave, peelOut, type Hand } from '../marks/knife.ts'
import type { Random } from '../random.ts'

type Ring = readonly (readonly [number, number])[]

const QUAY_MM = 226
const MOON = { xMm: 197, yMm: 119, radiusMm: 38 }

/** The night picture of the poster: houses, a cat on a bridge before the moon, water. */
export function canalCuts(random: Random): readonly Cut[] {
  const hand: Hand = { strayMm: 0.09, overcutShare: 0.45, random }
  const open = (ring: Ring): readonly Cut[] => peelOut([points(ring)], hand)
  const keep = (ring: Ring): readonly Cut[] => leave([points(ring)], hand)
  return [
    ...keep([[24, 26], [273, 25.4], [273.4, 296], [23.6, 296.4]]),
    ...moonAndStars(hand),
    ...houses({ open, keep, random }),
    ...bridge(hand),
    ...cat(keep, open),
    ...water(hand),
    ...boat(open, keep),
  ]
}

type Knife = (ring: Ring) => readonly Cut[]

function box([x, y]: readonly [number, number], [wide, tall]: readonly [number, number]): Ring {
  return [[x, y], [x + wide, y], [x + wide, y + tall], [x, y + tall]]
}

function moonAndStars(hand: Hand): readonly Cut[] {
  const { random } = hand
  const corners = 26
  const round = Array.from({ length: corners }, (_, at): Point => {
    const turn = (at / corners) * 2 * Math.PI
    return { xMm: MOON.xMm + MOON.radiusMm * Math.cos(turn), yMm: MOON.yMm + MOON.radiusMm * Math.sin(turn) }
  })
  const clouds: readonly Ring[] = [
    [[150, 99.4], [178, 97.6], [206, 98.6], [219, 97.8], [204, 100.8], [180, 101.6], [164, 103]],
    [[188, 106.4], [212, 104.6], [238, 106.4], [214, 107.6]],
    [[154, 126], [170, 124.4], [183, 125], [169, 126.6]],
    [[206, 88.6], [216, 87.6], [224, 88.7], [215, 89.4]],
    [[208, 133.6], [226, 132.4], [238, 133.2], [224, 134.2]],
  ]
  const stars = Array.from({ length: 46 }, (): readonly Cut[] => {
    const xMm = random.between(32, 265)
    const yMm = 34 + 96 * random.share() ** 1.5
    const size = 0.25 + 1.5 * random.share() ** 4
    if (Math.hypot(xMm - MOON.xMm, yMm - MOON.yMm) < MOON.radiusMm + 6 || (yMm > 88 && xMm < 160)) return []
    const thin = size * random.between(0.28, 0.5)
    const ring = points([[xMm, yMm - size], [xMm + thin, yMm - thin * 0.4], [xMm + size * 0.8, yMm], [xMm + thin, yMm + thin * 0.5], [xMm, yMm + size], [xMm - thin, yMm + thin * 0.3], [xMm - size * 0.8, yMm], [xMm - thin, yMm - thin * 0.5]])
    return peelOut([size > 0.7 ? ring : ring.filter((_, at) => at % 2 === 0)], { ...hand, strayMm: 0.05 })
  })
  return [...peelOut([round], hand), ...clouds.flatMap((ring) => leave([points(ring)], hand)), ...stars.flat()]
}

type Knives = Readonly<{ open: Knife; keep: Knife; random: Random }>

/** A row of gables on the left bank: lit fronts, dark fronts, windows with bars. */
function houses({ open, keep, random }: Knives): readonly Cut[] {
  const out: Cut[] = []
  const pane = (x: number, y: number, lit: boolean, [wide, tall]: readonly [number, number] = [5.4, 8]): void => {
    out.push(...(lit ? open : keep)(box([x, y], [wide, tall])))
    const barMm = random.between(0.35, 0.7)
    const cross = lit ? keep : open
    out.push(...cross(box([x + wide / 2 - barMm / 2, y + 0.02], [barMm, tall - 0.04])))
    out.push(...cross(box([x + 0.02, y + tall * 0.42], [wide - 0.04, barMm])))
  }
  // First: dark, only the roof's edge catches the moon.
  out.push(...open([[29, 148], [41.5, 128], [54, 148], [52.4, 148], [41.5, 130.8], [30.6, 148]]))
  for (const [x, y, lit] of [[33, 154, 1], [44.4, 154, 0], [33, 170, 0], [44.4, 170, 1], [33, 187, 1], [44.4, 187, 1]] as const) {
    if (lit === 1) pane(x, y, true)
  }
  out.push(...open([[38.8, 138], [41.5, 134.4], [44.2, 138], [44.2, 143], [38.8, 143]]))
  out.push(...open(box([35, 205], [6, QUAY_MM - 206])), ...keep(box([39.2, 215], [0.9, 0.9])))
  // Second: a stepped gable in full moonlight.
  out.push(...open([[57, QUAY_MM - 1], [57, 152], [61, 152], [61, 145], [65, 145], [65, 138], [69, 138], [69, 131], [77, 131], [77, 138], [81, 138], [81, 145], [85, 145], [85, 152], [89, 152], [89, QUAY_MM - 1]]))
  for (const y of [157, 174, 191]) for (const x of [61, 70.3, 79.6]) pane(x, y, false, [5.4, 9])
  out.push(...keep(box([70, 142], [6, 7.4])), ...open([[71, 143], [75, 143], [75, 148.4], [71, 148.4]]), ...keep(box([72.7, 142.4], [0.5, 6.6])))
  out.push(...keep(box([64, 209], [8, QUAY_MM - 209])), ...open(box([65.4, 210.6], [5.2, 4])), ...keep([[76, 212], [85, 212], [85, 219], [76, 219]]), ...open([[77, 213], [84, 213], [84, 218], [77, 218]]))
  out.push(...keep(box([57, 169], [32, 0.8])), ...keep(box([57, 186], [32, 0.6])), ...keep(box([57, 204], [32, 1])))
  // Third: a low dark shop, its window bright, its tiles ruled with light.
  out.push(...open([[92, 168], [97, 156], [119, 156], [124, 168]]))
  for (let row = 0; row < 5; row += 1) out.push(...keep(box([91.4, 158 + row * 2.2], [33.4, 0.25 + 0.18 * row])))
  out.push(...open(box([95, 176], [26, 17])))
  for (let bar = 1; bar < 6; bar += 1) out.push(...keep(box([95 + bar * 4.33 - 0.2, 176.05], [0.4, 16.9])))
  out.push(...keep([[97, 193], [99, 186], [103, 183], [106, 187], [109, 182], [114, 186], [118, 193]]))
  out.push(...open(box([95, 198], [8, 27])), ...keep(box([98.7, 198.1], [0.6, 26.8])), ...open(box([108, 202], [13, 9])))
  // Chimneys with their lit sides, and a thread of smoke.
  out.push(...open(box([47.6, 127], [1.6, 9])), ...open(box([113, 146], [1.4, 9])))
  out.push(...open([[114, 143], [116.2, 136], [113.4, 128], [117, 118], [114.2, 127.6], [117.4, 136]]))
  // The quay.
  out.push(...open([[26, QUAY_MM], [136, QUAY_MM], [136, QUAY_MM + 2.6], [26, QUAY_MM + 3]]))
  for (let x = 34; x < 134; x += random.between(7, 12)) out.push(...keep(box([x, QUAY_MM], [random.between(0.2, 0.45), 3])))
  return out
}

/** Every stone is peeled by itself; the joints are what is left. */
function bridge(hand: Hand): readonly Cut[] {
  const { random } = hand
  const out: Cut[] = []
  const centre = { x: 200, y: 232 }
  const [inner, outer] = [43, 54]
  const roadAt = (x: number): number => 152.5 + ((x - 200) / 74) ** 2 * 14
  // Her dark body first: the moon sets behind it.
  const road = Array.from({ length: 25 }, (_, at): Point => ({ xMm: 122 + at * 6.2, yMm: roadAt(122 + at * 6.2) - 1.1 }))
  out.push(stays([[...road, { xMm: 270.8, yMm: QUAY_MM }, { xMm: 122, yMm: QUAY_MM }]]))
  const stones = 19
  for (let at = 0; at < stones; at += 1) {
    const jointRad = random.between(0.0035, 0.008)
    const from = Math.PI * (at / stones) + jointRad
    const to = Math.PI * ((at + 1) / stones) - jointRad
    const key = at === 9 ? 3.4 : 0
    const spot = (turn: number, radius: number): Point => ({ xMm: centre.x - radius * Math.cos(turn), yMm: centre.y - radius * Math.sin(turn) })
    const mid = (from + to) / 2
    out.push(...peelOut([[spot(from, inner), spot(from, outer + key), spot(mid, outer + key + 0.25), spot(to, outer + key), spot(to, inner), spot(mid, inner - 0.2)]], hand))
  }
  // Courses of the walls either side, cut off where the arch begins.
  for (let row = 0; row < 9; row += 1) {
    const tall = 7.6
    const topMm = 165 + row * tall
    if (topMm + tall > QUAY_MM + 9) break
    let x = 126 + (row % 2) * 5
    while (x < 272) {
      const wide = random.between(8, 15)
      const joint = random.between(0.28, 0.6)
      const stone = clippedStone({ left: x, right: Math.min(271.6, x + wide - joint), top: topMm, bottom: topMm + tall - joint }, { centre, radius: outer + 1.2, roadAt })
      if (stone !== null) out.push(...peelOut([stone], hand))
      x += wide
    }
  }
  // Parapet stones along the road.
  for (let x = 124; x < 270; x += 12.4) {
    const right = Math.min(272, x + 12.4 - random.between(0.3, 0.7))
    out.push(...peelOut([points([[x, roadAt(x)], [right, roadAt(right)], [right, roadAt(right) + 6], [x, roadAt(x) + 6]])], hand))
  }
  return out
}

type Around = Readonly<{ centre: Readonly<{ x: number; y: number }>; radius: number; roadAt: (x: number) => number }>

function clippedStone(
  { left, right, top, bottom }: Readonly<{ left: number; right: number; top: number; bottom: number }>,
  { centre, radius, roadAt }: Around,
): readonly Point[] | null {
  const high = Math.max(top, roadAt(left) + 7, roadAt(right) + 7)
  if (bottom - high < 1.2 || right - left < 1.2) return null
  const outside = (x: number, y: number): boolean => Math.hypot(x - centre.x, y - centre.y) > radius
  const reach = (y: number): number => Math.sqrt(Math.max(0, radius ** 2 - (y - centre.y) ** 2))
  const isLeft = (left + right) / 2 < centre.x
  const edge = (y: number): number => (isLeft ? Math.min(right, centre.x - reach(y)) : Math.max(left, centre.x + reach(y)))
  if (outside(left, high) && outside(right, high) && outside(left, bottom) && outside(right, bottom)) {
    return points([[left, high], [right, high], [right, bottom], [left, bottom]])
  }
  const [a, b, c] = [edge(high), edge((high + bottom) / 2), edge(bottom)]
  if (isLeft) return Math.min(a, c) - left < 1.4 ? null : points([[left, high], [a, high], [b, (high + bottom) / 2], [c, bottom], [left, bottom]])
  return right - Math.max(a, c) < 1.4 ? null : points([[right, high], [a, high], [b, (high + bottom) / 2], [c, bottom], [right, bottom]])
}

function cat(keep: Knife, open: Knife): readonly Cut[] {
  return [
    ...keep([[181.6, 153.4], [180.6, 147], [183, 138.6], [188, 131.4], [189, 127], [186.6, 122.6], [187, 117.6], [188.2, 111], [191.6, 114.4], [195, 114.2], [198.6, 110.6], [199.4, 117], [199.8, 121.4], [198, 125.6], [199.4, 130], [200.8, 139], [201.2, 150], [203.6, 153]]),
    ...keep([[184, 150], [178, 152.4], [174, 157], [173.6, 163.4], [176, 168], [179, 168.6], [178.2, 166.4], [176.2, 163.4], [176.6, 158.4], [180, 155], [186, 153.6]]),
    ...open([[189.6, 116.9], [191.2, 117.3], [192.6, 118.9], [190.6, 118.6]]),
    ...open([[197.6, 116.8], [197, 118.5], [194.9, 118.9], [196.1, 117.2]]),
    // Whiskers of light against the dark, the finest cuts of the sheet.
    ...open([[187.9, 120.7], [191.8, 121.5], [187.9, 120.9]]),
    ...open([[188.3, 122.2], [191.8, 122.1], [188.4, 122.36]]),
    ...open([[199.2, 120.5], [195.2, 121.4], [199.2, 120.68]]),
    ...open([[199, 122.1], [195.2, 122], [199, 122.24]]),
  ]
}

function water(hand: Hand): readonly Cut[] {
  const { random } = hand
  const out: Cut[] = []
  const sliver = (xMm: number, yMm: number, [wide, tall]: readonly [number, number]): void => {
    const lean = random.around(0, 0.4)
    const belly = random.between(-0.3, 0.3) * wide
    out.push(...peelOut([points([[xMm - wide / 2, yMm + lean], [xMm + belly, yMm - tall / 2], [xMm + wide / 2, yMm - lean], [xMm + belly * 0.6, yMm + tall / 2]])], { ...hand, strayMm: 0.05, overcutShare: 0.2 }))
  }
  // The moon's road, under the arch and out to us.
  for (let y = 206; y < 290; y += random.between(1.7, 2.9)) {
    const near = (y - 206) / 84
    const wide = (9 + 26 * near) * random.between(0.5, 1.15)
    sliver(200 + random.around(0, 2 + 5 * near), y, [wide, 0.35 + 1.25 * near * random.between(0.6, 1.2)])
    if (random.share() < 0.5) sliver(200 + random.around(0, 16 + 14 * near), y + 0.8, [wide * 0.35, 0.2 + 0.4 * near])
  }
  for (let at = 0; at < 110; at += 1) {
    const near = random.share()
    const yMm = 234 + 56 * near
    const xMm = random.between(30, 266)
    const wide = (3 + 13 * near) * random.between(0.5, 1.3)
    if ((xMm < 142 && yMm > 236 && yMm < 279) || xMm - wide / 2 < 27 || xMm + wide / 2 > 270) continue
    sliver(xMm, yMm, [wide, 0.16 + 0.6 * near * random.share()])
  }
  return out
}

/** A narrow boat lies at the quay: roof and side lit, round windows dark with a glint. */
function boat(open: Knife, keep: Knife): readonly Cut[] {
  const out: Cut[] = []
  out.push(...open([[46, 245], [48, 241.6], [118, 241], [121, 244.6]]))
  out.push(...open([[45, 246], [121.6, 245.5], [122.4, 256], [44, 256.6]]))
  out.push(...open([[30, 252], [40, 255.4], [42, 258.2], [128, 257.4], [138, 250.6], [141, 250.4], [134, 262], [126, 265.6], [48, 266.4], [37, 262]]))
  out.push(...keep([[36, 257.4], [42, 260], [128, 259.4], [135, 255.6], [134.6, 256.6], [128, 260.4], [42, 261.2], [36.4, 258.8]]))
  for (let at = 0; at < 5; at += 1) {
    const ring = Array.from({ length: 8 }, (_, corner): readonly [number, number] => {
      const turn = ((corner + 0.5) / 8) * 2 * Math.PI
      return [56 + at * 13.4 + 3.1 * Math.cos(turn), 251 + 3.1 * Math.sin(turn)]
    })
    out.push(...keep(ring))
    out.push(...open(ring.map(([x, y]) => [56 + at * 13.4 + (x - 56 - at * 13.4) * 0.62, 251 + (y - 251) * 0.62] as const)))
    out.push(...keep([[54.6 + at * 13.4, 252.6], [57.4 + at * 13.4, 249.3], [57.7 + at * 13.4, 249.6], [55 + at * 13.4, 252.8]]))
  }
  out.push(...open([[64, 241], [64.4, 234], [66.8, 234], [67, 241]]), ...keep([[64, 236.4], [67, 236.4], [67, 237.2], [64, 237.2]]))
  out.push(...open([[84, 240.6], [86, 237.6], [94, 237.4], [96.6, 240.4]]), ...keep([[86.8, 240.3], [87.6, 238.2], [93, 238], [94.4, 240.2]]))
  for (let at = 0; at < 9; at += 1) {
    const wide = 70 - 6 * at
    out.push(...open([[84 - wide / 2 + (at % 3) * 4, 269.6 + at * 2.3], [84 + (at % 2) * 7, 269.2 + at * 2.3], [84 + wide / 2 - (at % 2) * 6, 269.8 + at * 2.3], [86, 270.1 + at * 2.3 + 0.05 * at]]))
  }
  return out
}
