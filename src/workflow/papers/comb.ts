import type { Path, PathPart, Place } from '../../formats/pagePath.ts'
import { REED_WIDTHS_MM } from './reeds.ts'
import type { Box } from './shapes.ts'

/** Teeth of each width stand together, as far apart as they are wide. */
const TEETH_EACH = 3
/** The comb's two outer teeth. */
const POST_MM = 0.6
/** Handle of a quarter circle's curve, in radii. */
const HANDLE = 0.5523

type Tooth = Readonly<{ leftMm: number; rightMm: number; share: number }>

/** A comb in black, teeth down, and below it one that is cut out of black, teeth up. */
export function combs({ xMm, yMm, widthMm, heightMm }: Box): readonly [Path, Path] {
  const apart = Math.min(2.4, 0.1 * heightMm)
  const height = (heightMm - apart) / 2
  const upper = { xMm, yMm, widthMm, heightMm: height }
  const lower = { ...upper, yMm: yMm + height + apart }
  const teeth = teethOf(upper)
  return [combOf(upper, teeth), cutCombOf(lower, teeth)]
}

function teethOf({ xMm, widthMm }: Box): readonly Tooth[] {
  const taken = REED_WIDTHS_MM.reduce((sum, width) => sum + (2 * TEETH_EACH - 1) * width, 0)
  const between = (widthMm - 2 * POST_MM - taken) / (REED_WIDTHS_MM.length + 1)
  let left = xMm + POST_MM + between
  return REED_WIDTHS_MM.flatMap((width, group) => {
    const first = left
    left += (2 * TEETH_EACH - 1) * width + between
    return Array.from({ length: TEETH_EACH }, (_, tooth) => {
      const along = (group + tooth / TEETH_EACH) / REED_WIDTHS_MM.length
      const leftMm = first + 2 * tooth * width
      // the ends lie on an arc, as if cut with a knife
      return { leftMm, rightMm: leftMm + width, share: 0.84 + 0.16 * Math.sin(2.6 * along + 0.5) }
    })
  })
}

function combOf({ xMm, yMm, widthMm, heightMm }: Box, teeth: readonly Tooth[]): Path {
  const [right, bottom] = [xMm + widthMm, yMm + heightMm]
  const spine = yMm + 0.32 * heightMm
  const longest = bottom - spine
  return closed([
    ...straight([{ xMm, yMm: bottom }]),
    ...shoulders({ xMm, yMm, widthMm, heightMm }, 'up'),
    ...straight([
      { xMm: right, yMm: bottom },
      { xMm: right - POST_MM, yMm: bottom },
      { xMm: right - POST_MM, yMm: spine },
    ]),
    ...teeth
      .toReversed()
      .flatMap(({ leftMm, rightMm, share }) =>
        finger({ fromMm: rightMm, toMm: leftMm, rootMm: spine, tipMm: spine + share * longest }),
      ),
    ...straight([
      { xMm: xMm + POST_MM, yMm: spine },
      { xMm: xMm + POST_MM, yMm: bottom },
    ]),
  ])
}

function cutCombOf({ xMm, yMm, widthMm, heightMm }: Box, teeth: readonly Tooth[]): Path {
  const spine = yMm + heightMm - 0.32 * heightMm
  return closed([
    ...straight([{ xMm, yMm }]),
    ...teeth.flatMap(({ leftMm, rightMm, share }) =>
      finger({ fromMm: leftMm, toMm: rightMm, rootMm: yMm, tipMm: yMm + share * (spine - yMm) }),
    ),
    ...straight([{ xMm: xMm + widthMm, yMm }]),
    ...shoulders({ xMm, yMm, widthMm, heightMm }, 'down'),
  ])
}

/** A tooth or a slot: out to its round end and back. */
function finger({
  fromMm,
  toMm,
  rootMm,
  tipMm,
}: Readonly<{ fromMm: number; toMm: number; rootMm: number; tipMm: number }>): readonly PathPart[] {
  const radius = Math.abs(toMm - fromMm) / 2
  const middle = (fromMm + toMm) / 2
  const waist = tipMm - radius
  const handle = HANDLE * radius
  const toward = Math.sign(toMm - fromMm)
  return [
    ...straight([
      { xMm: fromMm, yMm: rootMm },
      { xMm: fromMm, yMm: waist },
    ]),
    curve([fromMm, waist + handle], [middle - toward * handle, tipMm], [middle, tipMm]),
    curve([middle + toward * handle, tipMm], [toMm, waist + handle], [toMm, waist]),
    ...straight([{ xMm: toMm, yMm: rootMm }]),
  ]
}

/** The comb's back: from its left side over two round shoulders to its right, or the way back. */
function shoulders({ xMm, yMm, widthMm, heightMm }: Box, way: 'up' | 'down'): readonly PathPart[] {
  const right = xMm + widthMm
  const [wide, high] = [0.24 * widthMm, 0.3 * heightMm]
  if (way === 'up') {
    const waist = yMm + high
    return [
      ...straight([{ xMm, yMm: waist }]),
      curve([xMm, yMm + 0.2 * high], [xMm + 0.3 * wide, yMm], [xMm + wide, yMm]),
      ...straight([{ xMm: right - wide, yMm }]),
      curve([right - 0.3 * wide, yMm], [right, yMm + 0.2 * high], [right, waist]),
    ]
  }
  const bottom = yMm + heightMm
  const waist = bottom - high
  return [
    ...straight([{ xMm: right, yMm: waist }]),
    curve([right, bottom - 0.2 * high], [right - 0.3 * wide, bottom], [right - wide, bottom]),
    ...straight([{ xMm: xMm + wide, yMm: bottom }]),
    curve([xMm + 0.3 * wide, bottom], [xMm, bottom - 0.2 * high], [xMm, waist]),
  ]
}

type Pair = readonly [number, number]

function curve(first: Pair, second: Pair, end: Pair): PathPart {
  return {
    kind: 'curve',
    firstXMm: first[0],
    firstYMm: first[1],
    secondXMm: second[0],
    secondYMm: second[1],
    xMm: end[0],
    yMm: end[1],
  }
}

function straight(points: readonly Place[]): readonly PathPart[] {
  return points.map(({ xMm, yMm }) => ({ kind: 'line', xMm, yMm }))
}

/** A path that was begun with a line begins with a move. */
function closed([first, ...others]: readonly PathPart[]): Path {
  if (first?.kind !== 'line') return []
  return [{ ...first, kind: 'move' }, ...others, { kind: 'close' }]
}
