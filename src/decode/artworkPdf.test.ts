import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PDFDocument, PDFName, PDFNumber, rgb } from 'pdf-lib'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { afterAll, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { openArtwork } from './artwork.ts'

const folder = mkdtempSync(join(tmpdir(), 'yellowroom-pdf-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A banner of 100 by 80 units by another program, each so many 72nds of an inch. */
async function banner(unit: number | null, packs: boolean): Promise<Uint8Array> {
  const document = await PDFDocument.create()
  const page = document.addPage([100, 80])
  page.drawRectangle({ x: 10, y: 10, width: 30, height: 20, color: rgb(1, 0, 0) })
  if (unit !== null) page.node.set(PDFName.of('UserUnit'), PDFNumber.of(unit))
  return document.save({ useObjectStreams: packs })
}

test.each([
  [2.5, true, 2.5],
  [10, false, 10],
  [null, true, 1],
  [-3, false, 1],
  [0, true, 1],
] as const)(
  'a page of unit %s, its objects packed: %s, is that much larger',
  async (unit, packs, is) => {
    const bytes = await banner(unit, packs)
    const path = join(folder, `banner-${unit}-${packs}.pdf`)
    writeFileSync(path, bytes)
    const opened = await openArtwork(path)
    await opened.close()
    near(opened.widthMm ?? 0, (is * 100 * 25.4) / 72, { within: 1e-3, because: 'pdf32000 7.7.3.3' })
    near(opened.proportion, 100 / 80, { within: 1e-6, because: 'both sides alike' })
    if (unit === null || unit <= 0) return
    const task = getDocument({ data: bytes.slice(), verbosity: 0 })
    const page = await (await task.promise).getPage(1)
    expect(page.userUnit).toBe(is) // an independent reader says the same
    await task.destroy()
  },
)
