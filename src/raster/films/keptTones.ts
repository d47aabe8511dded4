import { emptyRow, type ToneRow, type Tones } from './tones.ts'

/**
 * Tones worked out once and held, for whoever looks at them again and again: two bytes a plate and
 * pixel, so for pictures made small. Rows are copies and may be changed.
 */
export async function keptTones(tones: Tones): Promise<Tones> {
  const { plates, widthPx, heightPx } = tones
  const kept = emptyRow({ plates, widthPx: widthPx * heightPx })
  let at = 0
  for await (const row of tones.rows()) {
    row.forEach((line, plate) => kept[plate].set(line, at))
    at += widthPx
  }
  async function* rows(from = 0): AsyncGenerator<ToneRow> {
    const out = emptyRow({ plates, widthPx })
    for (let y = from; y < heightPx; y++) {
      out.forEach((into, plate) => {
        into.set(kept[plate].subarray(y * widthPx, (y + 1) * widthPx))
      })
      yield out
    }
  }
  return { plates, widthPx, heightPx, rows }
}
