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

/** Two inks as another program writes them: a Separation, and one of a DeviceN. */
async function inkPage(): Promise<Uint8Array> {
  const document = await PDFDocument.create()
  const { context } = document
  const page = document.addPage([100, 80])
  const tint = (c1: readonly number[]) => ({
    FunctionType: 2,
    Domain: [0, 1],
    C0: [0, 0, 0, 0],
    C1: c1,
    N: 1,
  })
  const moss = context.obj(['Separation', 'Moss Green', 'DeviceCMYK', tint([0.7, 0, 1, 0])])
  const two = context.register(
    context.stream('{ exch pop 0 exch 0 exch 0 0 }', {
      FunctionType: 4,
      Domain: [0, 1, 0, 1],
      Range: [0, 1, 0, 1, 0, 1, 0, 1],
    }),
  )
  const pair = context.obj(['DeviceN', ['None', 'Rust'], 'DeviceCMYK', two])
  page.node.set(PDFName.of('Resources'), context.obj({ ColorSpace: { A: moss, B: pair } }))
  const content = '/A cs 1 scn 0 0 50 80 re f /B cs 0 0.5 scn 50 0 50 80 re f'
  page.node.set(PDFName.of('Contents'), context.register(context.stream(content)))
  return document.save()
}

test('inks that a PDF names are told with what their solids look like, and pass through by name', async () => {
  const path = join(folder, 'inks.pdf')
  writeFileSync(path, await inkPage())
  const opened = await openArtwork(path)
  try {
    expect(opened.ownInks.map(({ name }) => name)).toEqual(['Moss Green', 'Rust'])
    const [moss] = opened.ownInks
    const [red, green, blue] = moss?.srgb ?? [1, 0, 1]
    // cyan and yellow: green is what is left of the light
    expect([green > red, green > blue]).toEqual([true, true])
    const samples = await opened.samples({
      widthPx: 100,
      heightPx: 80,
      keepsCmyk: false,
      inks: ['moss green', 'rust'],
    })
    const means: number[] = []
    for (const { grey } of samples.passing ?? []) {
      let sum = 0
      for await (const band of grey.bands()) sum += band.samples.reduce((all, one) => all + one, 0)
      means.push(1 - sum / (255 * 100 * 80))
    }
    near(means[0] ?? 0, 0.5, { within: 0.01, because: 'half of the page, solid' })
    near(means[1] ?? 0, 0.25, { within: 0.01, because: 'half of the page, half a tint' })
  } finally {
    await opened.close()
  }
})
