import type { Sheet } from '../../core/separation/plan.ts'
import { type Bilevel, type BitBand, rowBytesOf } from '../../formats/bilevel.ts'
import type { FilmPage } from '../../formats/filmPage.ts'
import type { PageLayout } from './pageLayout.ts'

/**
 * The pages of a film's PDF: the film itself, or parts of it on sheets, from the top left on, each
 * repeating its neighbour's rim by the overlap. A film smaller than the sheet lies in its middle.
 *
 * @param film makes the film's bits anew for each part
 */
export function filmPages(
  film: () => Bilevel,
  { layout, sheet }: Readonly<{ layout: PageLayout; sheet: Sheet | null }>,
): readonly FilmPage[] {
  const { widthMm, heightMm, pixelMm } = layout
  if (sheet === null) {
    return [{ widthMm, heightMm, items: [{ kind: 'bitmap', xMm: 0, yMm: 0, film: film() }] }]
  }
  const columns = parts(layout.widthPx, {
    sheetPx: Math.floor(sheet.widthMm / pixelMm),
    overlapPx: Math.ceil(sheet.overlapMm / pixelMm),
  })
  const rows = parts(layout.heightPx, {
    sheetPx: Math.floor(sheet.heightMm / pixelMm),
    overlapPx: Math.ceil(sheet.overlapMm / pixelMm),
  })
  return rows.flatMap((row) =>
    columns.map((column) => {
      const part = partOf(film, { column, row, layout })
      const xMm = columns.length > 1 ? 0 : (sheet.widthMm - widthMm) / 2
      const yMm = rows.length > 1 ? 0 : (sheet.heightMm - heightMm) / 2
      const place = { xMm: Math.max(0, xMm), yMm: Math.max(0, yMm) }
      return {
        widthMm: sheet.widthMm,
        heightMm: sheet.heightMm,
        items: [{ kind: 'bitmap', ...place, film: part }],
      }
    }),
  )
}

type Part = Readonly<{ fromPx: number; toPx: number }>

/** Where each part begins and ends; beginnings are whole bytes. */
function parts(
  lengthPx: number,
  { sheetPx, overlapPx }: Readonly<{ sheetPx: number; overlapPx: number }>,
): readonly Part[] {
  if (lengthPx <= sheetPx) return [{ fromPx: 0, toPx: lengthPx }]
  const step = Math.max(8, 8 * Math.floor((sheetPx - overlapPx) / 8))
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
  const firstByte = column.fromPx / 8
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
        const start = at * bytes + firstByte
        bits.set(band.bits.subarray(start, start + rowBytes), (at - from) * rowBytes)
      }
      yield { rows: to - from, bits }
      if (y >= row.toPx) return
    }
  }
  return { widthPx, heightPx, pixelUm: 1000 * layout.pixelMm, bands: bands() }
}
