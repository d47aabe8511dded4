import { expectIn } from '../core/units/range.ts'
import { type Bilevel, expectBilevel } from './bilevel.ts'
import type { Path, Place, Transform } from './pagePath.ts'

/** One page at true size: what lies on it, the first at the bottom. */
export type FilmPage = Readonly<{
  widthMm: number
  heightMm: number
  /** Where the sheet is to be cut; the whole page unless given. */
  trim?: Readonly<{ xMm: number; yMm: number; widthMm: number; heightMm: number }>
  items: readonly PageItem[]
}>

export type PageItem =
  /** By the non-zero winding rule unless told otherwise. */
  | Readonly<{ kind: 'fill'; path: Path; rule?: 'non-zero' | 'even-odd'; tintShare?: number }>
  | Stroke
  /** A bitmap with its top left corner at a place; it covers what is under it, clear pixels too. */
  | (Readonly<{ kind: 'bitmap'; film: Bilevel }> & Place)
  /** Items drawn through a transform. A pen keeps its round form and grows as the area does. */
  | Readonly<{ kind: 'group'; transform: Transform; items: readonly PageItem[] }>

export type Stroke = Readonly<{
  kind: 'stroke'
  path: Path
  widthMm: number
  /** Where a line ends; flat unless given. */
  ends?: 'flat' | 'round' | 'square'
  /** Where a line turns; sharp unless given. */
  corners?: 'sharp' | 'round' | 'cut'
  /** Dash, gap, dash …; an unbroken line unless given. */
  dashesMm?: readonly number[]
  tintShare?: number
}>

/** Points in a mm: the unit of PDF is a 72nd of an inch. */
export const POINTS_PER_MM: number = 72 / 25.4

/** The largest page: 14 400 points, a limit that PDF names. */
const MOST_MM = (14_400 * 25.4) / 72

/** @throws RangeError where a page, its trim or an item on it cannot be */
export function expectPage({ widthMm, heightMm, trim, items }: FilmPage): void {
  expectIn(widthMm, { name: 'widthMm', low: 1, high: MOST_MM, unit: 'mm' })
  expectIn(heightMm, { name: 'heightMm', low: 1, high: MOST_MM, unit: 'mm' })
  if (trim !== undefined) {
    expectIn(trim.xMm, { name: 'trim.xMm', low: 0, high: widthMm, unit: 'mm' })
    expectIn(trim.yMm, { name: 'trim.yMm', low: 0, high: heightMm, unit: 'mm' })
    const [right, bottom] = [trim.xMm + trim.widthMm, trim.yMm + trim.heightMm]
    expectIn(right, { name: 'trim’s right', low: trim.xMm, high: widthMm + SLACK_MM, unit: 'mm' })
    expectIn(bottom, {
      name: 'trim’s bottom',
      low: trim.yMm,
      high: heightMm + SLACK_MM,
      unit: 'mm',
    })
  }
  for (const item of items) expectItem(item)
}

/** Sums of millimetres end in rounding. */
const SLACK_MM = 1e-9

function expectItem(item: PageItem): void {
  switch (item.kind) {
    case 'group':
      for (const inner of item.items) expectItem(inner)
      return
    case 'bitmap':
      expectBilevel(item.film)
      expectPlace(item)
      return
    case 'stroke':
      expectIn(item.widthMm, { name: 'widthMm', low: 0.001, high: MOST_MM, unit: 'mm' })
      for (const dashMm of item.dashesMm ?? []) {
        expectIn(dashMm, { name: 'dashesMm', low: 0.001, high: MOST_MM, unit: 'mm' })
      }
      expectDrawing(item)
      return
    case 'fill':
      expectDrawing(item)
  }
}

function expectDrawing({
  path,
  tintShare = 1,
}: Readonly<{ path: Path; tintShare?: number }>): void {
  expectIn(tintShare, { name: 'tintShare', low: 0, high: 1, unit: '' })
  if (path[0]?.kind !== 'move') throw new RangeError('path: expected a move first')
  for (const part of path) {
    if (part.kind === 'close') continue
    expectPlace(part)
    if (part.kind !== 'curve') continue
    expectPlace({ xMm: part.firstXMm, yMm: part.firstYMm })
    expectPlace({ xMm: part.secondXMm, yMm: part.secondYMm })
  }
}

function expectPlace({ xMm, yMm }: Place): void {
  expectIn(xMm, { name: 'xMm', low: -MOST_MM, high: MOST_MM, unit: 'mm' })
  expectIn(yMm, { name: 'yMm', low: -MOST_MM, high: MOST_MM, unit: 'mm' })
}
