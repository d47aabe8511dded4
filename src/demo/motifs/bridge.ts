import { type Point, points } from '../curve.ts'
import { type Cut, stays } from '../marks/cut.ts'
import { type Hand, peelOut } from '../marks/knife.ts'
import { QUAY_MM } from './houses.ts'

/** Every stone is peeled by itself; the joints are what is left. */
export function bridge(hand: Hand): readonly Cut[] {
  const { random } = hand
  const out: Cut[] = []
  const centre = { x: 200, y: 232 }
  const [inner, outer] = [43, 54]
  const roadAt = (x: number): number => 152.5 + ((x - 200) / 74) ** 2 * 14
  // Her dark body first: the moon sets behind it.
  const road = Array.from(
    { length: 25 },
    (_, at): Point => ({ xMm: 122 + at * 6.2, yMm: roadAt(122 + at * 6.2) - 1.1 }),
  )
  out.push(stays([[...road, { xMm: 270.8, yMm: QUAY_MM }, { xMm: 122, yMm: QUAY_MM }]]))
  const stones = 19
  for (let at = 0; at < stones; at += 1) {
    const jointRad = random.between(0.0035, 0.008)
    const from = Math.PI * (at / stones) + jointRad
    const to = Math.PI * ((at + 1) / stones) - jointRad
    const key = at === 9 ? 3.4 : 0
    const spot = (turn: number, radius: number): Point => ({
      xMm: centre.x - radius * Math.cos(turn),
      yMm: centre.y - radius * Math.sin(turn),
    })
    const mid = (from + to) / 2
    out.push(
      ...peelOut(
        [
          [
            spot(from, inner),
            spot(from, outer + key),
            spot(mid, outer + key + 0.25),
            spot(to, outer + key),
            spot(to, inner),
            spot(mid, inner - 0.2),
          ],
        ],
        hand,
      ),
    )
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
      const stone = clippedStone(
        {
          left: x,
          right: Math.min(271.6, x + wide - joint),
          top: topMm,
          bottom: topMm + tall - joint,
        },
        { centre, radius: outer + 1.2, roadAt },
      )
      if (stone !== null) out.push(...peelOut([stone], hand))
      x += wide
    }
  }
  // Parapet stones along the road.
  for (let x = 124; x < 270; x += 12.4) {
    const right = Math.min(272, x + 12.4 - random.between(0.3, 0.7))
    out.push(
      ...peelOut(
        [
          points([
            [x, roadAt(x)],
            [right, roadAt(right)],
            [right, roadAt(right) + 6],
            [x, roadAt(x) + 6],
          ]),
        ],
        hand,
      ),
    )
  }
  return out
}

type Around = Readonly<{
  centre: Readonly<{ x: number; y: number }>
  radius: number
  roadAt: (x: number) => number
}>

function clippedStone(
  {
    left,
    right,
    top,
    bottom,
  }: Readonly<{ left: number; right: number; top: number; bottom: number }>,
  { centre, radius, roadAt }: Around,
): readonly Point[] | null {
  const high = Math.max(top, roadAt(left) + 7, roadAt(right) + 7)
  if (bottom - high < 1.2 || right - left < 1.2) return null
  const outside = (x: number, y: number): boolean => Math.hypot(x - centre.x, y - centre.y) > radius
  const reach = (y: number): number => Math.sqrt(Math.max(0, radius ** 2 - (y - centre.y) ** 2))
  const isLeft = (left + right) / 2 < centre.x
  const edge = (y: number): number =>
    isLeft ? Math.min(right, centre.x - reach(y)) : Math.max(left, centre.x + reach(y))
  if (
    outside(left, high) &&
    outside(right, high) &&
    outside(left, bottom) &&
    outside(right, bottom)
  ) {
    return points([
      [left, high],
      [right, high],
      [right, bottom],
      [left, bottom],
    ])
  }
  const [a, b, c] = [edge(high), edge((high + bottom) / 2), edge(bottom)]
  if (isLeft)
    return Math.min(a, c) - left < 1.4
      ? null
      : points([
          [left, high],
          [a, high],
          [b, (high + bottom) / 2],
          [c, bottom],
          [left, bottom],
        ])
  return right - Math.max(a, c) < 1.4
    ? null
    : points([
        [right, high],
        [a, high],
        [b, (high + bottom) / 2],
        [c, bottom],
        [right, bottom],
      ])
}
