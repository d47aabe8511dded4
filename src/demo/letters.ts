import { distanceMm, type Point } from './curve.ts'
import type { Piece } from './polygons.ts'

/**
 * A knife's alphabet: every letter a few straight bars. Paths run between the middles of bars in a
 * box one high, x to the right, y down; `o` before a path closes it.
 */
const LETTERS: Readonly<Record<string, Readonly<{ wide: number; paths: readonly string[] }>>> = {
  A: { wide: 0.72, paths: ['0,1 .25,0 .47,0 .72,1', '.12,.68 .6,.68'] },
  B: {
    wide: 0.62,
    paths: ['o0,0 .46,0 .58,.12 .58,.36 .46,.48 0,.48', 'o0,.48 .48,.48 .62,.61 .62,.87 .49,1 0,1'],
  },
  C: { wide: 0.6, paths: ['.6,.24 .6,.14 .46,0 .14,0 0,.14 0,.86 .14,1 .46,1 .6,.86 .6,.76'] },
  D: { wide: 0.62, paths: ['o0,0 .44,0 .62,.18 .62,.82 .44,1 0,1'] },
  E: { wide: 0.54, paths: ['.54,0 0,0 0,1 .54,1', '0,.48 .44,.48'] },
  F: { wide: 0.52, paths: ['.52,0 0,0 0,1', '0,.5 .42,.5'] },
  G: {
    wide: 0.62,
    paths: ['.61,.22 .61,.14 .47,0 .14,0 0,.14 0,.86 .14,1 .48,1 .62,.86 .62,.55 .36,.55'],
  },
  H: { wide: 0.62, paths: ['0,0 0,1', '.62,0 .62,1', '0,.49 .62,.49'] },
  I: { wide: 0, paths: ['0,0 0,1'] },
  J: { wide: 0.44, paths: ['.44,0 .44,.86 .3,1 .13,1 0,.87 0,.74'] },
  K: { wide: 0.6, paths: ['0,0 0,1', '.58,0 .1,.5 .6,1'] },
  L: { wide: 0.5, paths: ['0,0 0,1 .5,1'] },
  M: { wide: 0.78, paths: ['0,0 0,1', '.78,0 .78,1', '.1,0 .33,.62 .45,.62 .68,0'] },
  N: { wide: 0.64, paths: ['0,0 0,1', '.64,0 .64,1', '.11,0 .53,1'] },
  O: { wide: 0.64, paths: ['o.15,0 .49,0 .64,.15 .64,.85 .49,1 .15,1 0,.85 0,.15'] },
  P: { wide: 0.6, paths: ['0,.5 0,1', 'o0,0 .46,0 .6,.13 .6,.43 .46,.56 0,.56'] },
  Q: {
    wide: 0.64,
    paths: ['o.15,0 .49,0 .64,.15 .64,.85 .49,1 .15,1 0,.85 0,.15', '.36,.68 .7,1.08'],
  },
  R: { wide: 0.62, paths: ['0,.5 0,1', 'o0,0 .46,0 .6,.13 .6,.41 .46,.54 0,.54', '.3,.54 .62,1'] },
  S: {
    wide: 0.6,
    paths: [
      '.59,.22 .59,.13 .46,0 .13,0 0,.13 0,.36 .13,.49 .47,.49 .6,.62 .6,.87 .47,1 .13,1 0,.87 0,.78',
    ],
  },
  T: { wide: 0.64, paths: ['0,0 .64,0', '.32,0 .32,1'] },
  U: { wide: 0.62, paths: ['0,0 0,.85 .15,1 .47,1 .62,.85 .62,0'] },
  V: { wide: 0.68, paths: ['0,0 .26,1 .42,1 .68,0'] },
  W: { wide: 1, paths: ['0,0 .2,1 .32,1 .46,.3 .54,.3 .68,1 .8,1 1,0'] },
  X: { wide: 0.64, paths: ['0,0 .64,1', '.64,0 0,1'] },
  Y: { wide: 0.66, paths: ['0,0 .26,.52 .4,.52 .66,0', '.33,.52 .33,1'] },
  Z: { wide: 0.6, paths: ['0,0 .6,0', '.6,0 0,1', '0,1 .6,1'] },
  '0': { wide: 0.56, paths: ['o.14,0 .42,0 .56,.14 .56,.86 .42,1 .14,1 0,.86 0,.14'] },
  '1': { wide: 0.24, paths: ['0,.22 .24,.07', '.24,0 .24,1'] },
  '2': { wide: 0.56, paths: ['0,.22 0,.13 .13,0 .43,0 .56,.13 .56,.4 0,.84 0,1 .58,1'] },
  '3': {
    wide: 0.56,
    paths: [
      '0,.2 0,.13 .13,0 .42,0 .54,.12 .54,.35 .42,.47 .2,.47',
      '.42,.47 .56,.6 .56,.87 .43,1 .13,1 0,.87 0,.8',
    ],
  },
  '4': { wide: 0.6, paths: ['.44,0 .44,1', '.34,0 0,.56 0,.68 .6,.68'] },
  '5': {
    wide: 0.56,
    paths: ['.54,0 .02,0 .02,.42 .43,.42 .56,.55 .56,.87 .43,1 .13,1 0,.87 0,.8'],
  },
  '6': {
    wide: 0.56,
    paths: ['.54,.16 .42,0 .14,0 0,.14 0,.86 .14,1 .42,1 .56,.86 .56,.58 .43,.45 .06,.45'],
  },
  '7': { wide: 0.56, paths: ['0,0 .56,0 .56,.12 .2,1'] },
  '8': {
    wide: 0.56,
    paths: [
      'o.13,0 .43,0 .54,.11 .54,.36 .43,.47 .13,.47 .02,.36 .02,.11',
      'o.13,.47 .43,.47 .56,.6 .56,.87 .43,1 .13,1 0,.87 0,.6',
    ],
  },
  '9': {
    wide: 0.56,
    paths: ['.02,.84 .14,1 .42,1 .56,.86 .56,.14 .42,0 .14,0 0,.14 0,.42 .13,.55 .5,.55'],
  },
  '.': { wide: 0, paths: ['0,.93 0,1'] },
  ',': { wide: 0.06, paths: ['.07,.9 0,1.18'] },
  ':': { wide: 0, paths: ['0,.26 0,.4', '0,.86 0,1'] },
  '-': { wide: 0.3, paths: ['0,.52 .3,.52'] },
  '/': { wide: 0.4, paths: ['0,1 .4,0'] },
}

const SPACE_WIDE = 0.34

export type Setting = Readonly<{
  xMm: number
  /** Top of the capitals. */
  topMm: number
  /** Of a capital, edge to edge. */
  heightMm: number
  /** Thickness of a bar as a share of the height. */
  weightShare?: number
  /** Between letters, as a share of the height. */
  gapShare?: number
}>

/** A line of capitals as pieces to cut; what the alphabet lacks is left out. */
export function lettering(text: string, setting: Setting): readonly Piece[] {
  const { heightMm, topMm, weightShare = 0.16, gapShare = 0.14 } = setting
  const weightMm = weightShare * heightMm
  const boxMm = heightMm - weightMm
  let xMm = setting.xMm
  const out: Piece[] = []
  for (const sign of text) {
    const letter = LETTERS[sign]
    if (letter === undefined) {
      xMm += SPACE_WIDE * heightMm
      continue
    }
    const originMm = xMm + weightMm / 2
    for (const path of letter.paths) {
      const closed = path.startsWith('o')
      const places = path
        .slice(closed ? 1 : 0)
        .split(' ')
        .map((pair): Point => {
          const [x, y] = pair.split(',').map(Number)
          return { xMm: originMm + x * boxMm, yMm: topMm + weightMm / 2 + y * boxMm }
        })
      out.push(bar(places, { weightMm, closed, topMm, footMm: topMm + heightMm }))
    }
    xMm += letter.wide * boxMm + weightMm + gapShare * heightMm
  }
  return out
}

/** How wide a line comes out. */
export function widthOfMm(text: string, setting: Setting): number {
  const xs = lettering(text, setting)
    .flat(2)
    .map((point) => point.xMm)
  return Math.max(...xs) - setting.xMm
}

type Bar = Readonly<{ weightMm: number; closed: boolean; topMm: number; footMm: number }>

/** The outline of a bent bar of even thickness; ends at head or foot are cut level. */
function bar(places: readonly Point[], { weightMm, closed, topMm, footMm }: Bar): Piece {
  const half = weightMm / 2
  const side = (sign: 1 | -1): readonly Point[] =>
    places.map((place, at) => {
      const before = closed ? places[(at + places.length - 1) % places.length] : places[at - 1]
      const after = closed ? places[(at + 1) % places.length] : places[at + 1]
      if (before !== undefined && after !== undefined)
        return mitred({ before, place, after }, sign * half)
      return end(place, {
        other: after ?? before,
        isStart: before === undefined,
        aside: sign * half,
        topMm,
        footMm,
      })
    })
  if (closed) return [side(1), [...side(-1)].reverse()]
  return [[...side(1), ...[...side(-1)].reverse()]]
}

type Joint = Readonly<{ before: Point; place: Point; after: Point }>

function mitred({ before, place, after }: Joint, aside: number): Point {
  const inMm = distanceMm(before, place)
  const outMm = distanceMm(place, after)
  const ax = -(place.yMm - before.yMm) / inMm
  const ay = (place.xMm - before.xMm) / inMm
  const bx = -(after.yMm - place.yMm) / outMm
  const by = (after.xMm - place.xMm) / outMm
  const reach = aside / Math.max(0.3, 1 + ax * bx + ay * by)
  return { xMm: place.xMm + (ax + bx) * reach, yMm: place.yMm + (ay + by) * reach }
}

type End = Readonly<{
  other: Point
  isStart: boolean
  aside: number
  topMm: number
  footMm: number
}>

function end(place: Point, { other, isStart, aside, topMm, footMm }: End): Point {
  const longMm = distanceMm(place, other)
  const turn = isStart ? 1 : -1
  const x = (turn * (other.xMm - place.xMm)) / longMm
  const y = (turn * (other.yMm - place.yMm)) / longMm
  const corner = { xMm: place.xMm - y * aside, yMm: place.yMm + x * aside }
  const half = Math.abs(aside)
  const level =
    Math.abs(place.yMm - topMm) < half * 1.01
      ? topMm
      : Math.abs(place.yMm - footMm) < half * 1.01
        ? footMm
        : null
  // A bar that lies flat ends square, half its thickness past its middle.
  if (level === null || Math.abs(y) < 0.35) {
    return Math.abs(y) < 0.35
      ? { xMm: corner.xMm - turn * x * half, yMm: corner.yMm - turn * y * half }
      : corner
  }
  return { xMm: corner.xMm + ((level - corner.yMm) / y) * x, yMm: level }
}
