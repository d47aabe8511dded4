import type { Sheet } from '../../core/separation/plan.ts'
import { type Bilevel, type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
import type { FilmPage, PageItem } from '../../formats/filmPage.ts'
import type { Letters } from '../../formats/letters.ts'
import { linePath, type Place } from '../../formats/pagePath.ts'
import { line } from '../papers/lines.ts'
import type { PageLayout } from './pageLayout.ts'

/**
 * The pages of a film's PDF: the film itself, or parts of it on sheets, from the top left on, each
 * repeating its neighbour's rim by the overlap. Sheets lie crosswise where a film takes fewer that way.
 * A film smaller than the sheet lies in its middle. With cut marks, neighbours cut at their lines meet
 * edge to edge.
 *
 * @param film makes the film's bits anew for each part
 */
export function filmPages(
  film: () => Bilevel,
  {
    layout,
    sheet: asked,
    name,
    letters,
  }: Readonly<{ layout: PageLayout; sheet: Sheet | null; name: string; letters: Letters }>,
): readonly FilmPage[] {
  const { widthMm, heightMm, pixelMm } = layout
  if (asked === null) {
    return [{ widthMm, heightMm, items: [{ kind: 'bitmap', xMm: 0, yMm: 0, film: film() }] }]
  }
  const sheet = laid(layout, asked)
  const rimMm = rimOf(sheet)
  const { columns, rows } = partsOn(layout, sheet)
  return rows.flatMap((row, down) =>
    columns.map((column, across) => {
      const part = partOf(film, { column, row, layout })
      const xMm = columns.length > 1 ? rimMm : (sheet.widthMm - widthMm) / 2
      const yMm = rows.length > 1 ? rimMm : (sheet.heightMm - heightMm) / 2
      const place = { xMm: Math.max(0, xMm), yMm: Math.max(0, yMm) }
      const marks =
        sheet.cutMarks === true && columns.length * rows.length > 1
          ? cutMarks(sheet, {
              xsMm: cutsOf(columns, across).map((px) => place.xMm + (px - column.fromPx) * pixelMm),
              ysMm: cutsOf(rows, down).map((px) => place.yMm + (px - row.fromPx) * pixelMm),
              words: partWords(name, { columns, rows, across, down }),
              letters,
            })
          : []
      return {
        widthMm: sheet.widthMm,
        heightMm: sheet.heightMm,
        items: [{ kind: 'bitmap' as const, ...place, film: part }, ...marks],
      }
    }),
  )
}

/** How many sheets a film is parted on. */
export function sheetCount(layout: PageLayout, sheet: Sheet): number {
  return countOn(layout, laid(layout, sheet))
}

/** Crosswise where that takes fewer sheets. */
function laid(layout: PageLayout, sheet: Sheet): Sheet {
  const crosswise = { ...sheet, widthMm: sheet.heightMm, heightMm: sheet.widthMm }
  return countOn(layout, crosswise) < countOn(layout, sheet) ? crosswise : sheet
}

function countOn(layout: PageLayout, sheet: Sheet): number {
  const { columns, rows } = partsOn(layout, sheet)
  return columns.length * rows.length
}

function rimOf({ cutMarks = false }: Sheet): number {
  return cutMarks ? RIM_MM : 0
}

function partsOn(
  { widthPx, heightPx, pixelMm }: PageLayout,
  sheet: Sheet,
): Readonly<{ columns: readonly Part[]; rows: readonly Part[] }> {
  // a film that is not parted has no lines round it
  const isWhole = widthPx * pixelMm <= sheet.widthMm && heightPx * pixelMm <= sheet.heightMm
  const rimMm = isWhole ? 0 : rimOf(sheet)
  const partsOf = (lengthPx: number, sideMm: number): readonly Part[] =>
    parts(lengthPx, {
      sheetPx: Math.floor((sideMm - 2 * rimMm) / pixelMm + 1e-9),
      overlapPx: Math.ceil(sheet.overlapMm / pixelMm),
    })
  return { columns: partsOf(widthPx, sheet.widthMm), rows: partsOf(heightPx, sheet.heightMm) }
}

/** Left free on every side of a sheet for the lines, which never lie on the artwork. */
const RIM_MM = 9
const LINE_MM = 6
const PEN_MM = 0.15
const WORDS_MM = 3.2

/** Where a part is cut: in the middle of what it shares with the one before and the one after. */
function cutsOf(all: readonly Part[], at: number): readonly number[] {
  const middle = (one: Part | undefined, next: Part | undefined): readonly number[] =>
    one === undefined || next === undefined ? [] : [(one.toPx + next.fromPx) / 2]
  return [...middle(all[at - 1], all[at]), ...middle(all[at], all[at + 1])]
}

function cutMarks(
  { widthMm, heightMm }: Sheet,
  of: Readonly<{
    xsMm: readonly number[]
    ysMm: readonly number[]
    words: string
    letters: Letters
  }>,
): readonly PageItem[] {
  const stroke = (from: Place, to: Place): PageItem => ({
    kind: 'stroke',
    widthMm: PEN_MM,
    path: linePath([from, to]),
  })
  const ends = (lengthMm: number): readonly (readonly [number, number])[] => [
    [1, LINE_MM],
    [lengthMm - LINE_MM, lengthMm - 1],
  ]
  return [
    ...of.xsMm.flatMap((xMm) =>
      ends(heightMm).map(([from, to]) => stroke({ xMm, yMm: from }, { xMm, yMm: to })),
    ),
    ...of.ysMm.flatMap((yMm) =>
      ends(widthMm).map(([from, to]) => stroke({ xMm: from, yMm }, { xMm: to, yMm })),
    ),
    ...line(of.letters, of.words, {
      face: 'plain',
      sizeMm: WORDS_MM,
      xMm: widthMm / 2,
      yMm: heightMm - 3,
      anchor: 'middle',
    }),
  ]
}

function partWords(
  name: string,
  of: Readonly<{
    columns: readonly Part[]
    rows: readonly Part[]
    across: number
    down: number
  }>,
): string {
  const number = of.down * of.columns.length + of.across + 1
  return `${name}, part ${number} of ${of.columns.length * of.rows.length}. Cut at the lines.`
}

type Part = Readonly<{ fromPx: number; toPx: number }>

/** Where each part begins and ends: as far from the one before as a sheet without its overlap is long. */
function parts(
  lengthPx: number,
  { sheetPx, overlapPx }: Readonly<{ sheetPx: number; overlapPx: number }>,
): readonly Part[] {
  if (lengthPx <= sheetPx) return [{ fromPx: 0, toPx: lengthPx }]
  const step = Math.max(1, sheetPx - overlapPx)
  const count = Math.ceil((lengthPx - sheetPx) / step) + 1
  return Array.from({ length: count }, (_, at) => ({
    fromPx: at * step,
    toPx: Math.min(lengthPx, at * step + sheetPx),
  }))
}

function partOf(
  film: () => Bilevel,
  { column, row, layout }: Readonly<{ column: Part; row: Part; layout: PageLayout }>,
): Bilevel {
  const widthPx = column.toPx - column.fromPx
  const heightPx = row.toPx - row.fromPx
  const rowBytes = rowBytesOf({ widthPx })
  const firstByte = column.fromPx >> 3
  const shift = column.fromPx & 7
  async function* bands(): AsyncGenerator<BitBand> {
    let y = 0
    for await (const band of film().bands) {
      const bytes = band.bits.length / band.rows
      const from = Math.max(0, row.fromPx - y)
      const to = Math.min(band.rows, row.toPx - y)
      y += band.rows
      if (to <= from) continue
      const bits = new Uint8Array((to - from) * rowBytes)
      for (let at = from; at < to; at++) {
        const row = band.bits.subarray(at * bytes + firstByte, (at + 1) * bytes)
        const into = bits.subarray((at - from) * rowBytes, (at - from + 1) * rowBytes)
        if (shift === 0) into.set(row.subarray(0, rowBytes))
        else shiftInto(into, row, shift)
      }
      yield { rows: to - from, bits }
      if (y >= row.toPx) return
    }
  }
  return { widthPx, heightPx, pixelUm: 1000 * layout.pixelMm, bands: bands() }
}

/** Bits from one place within a byte on, so that they begin a byte. */
function shiftInto(into: Uint8Array, row: Uint8Array, shift: number): void {
  for (let at = 0; at < into.length; at++) {
    into[at] = ((row[at] ?? 0) << shift) | ((row[at + 1] ?? 0) >> (8 - shift))
  }
}
