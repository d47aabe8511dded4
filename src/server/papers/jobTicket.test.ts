import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { expect, test } from 'vitest'
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import { near } from '../../core/units/near.testing.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../formats/pdfReaders.testing.ts'
import { memorySink, testDeflater } from '../../formats/sink.testing.ts'
import { type JobTicket, jobTicketPages } from '../../workflow/papers/jobTicket.ts'
import { codeSquaresOf } from './codeSquares.ts'

const ADDRESS = 'http://192.168.100.23:4680/tickets/01m8hx1ypf9f7qz7xt9ezwpb60'
const TICKET: JobTicket = {
  code: 'K4',
  name: 'Kettle and three pears',
  owner: 'Tamsin Ore',
  paper: 'cream cartridge, 250 g',
  editionCount: 20,
  sheetsToPrepare: 23,
  next: 'Next: black, screen. Anybody can do it.',
  layers: [
    {
      place: 1,
      shortName: 'K4-W',
      ink: 'warm grey',
      film: null,
      at: null,
      pulled: 23,
      press: null,
    },
    {
      place: 2,
      shortName: 'K4-B',
      ink: 'black',
      film: 'Kettle',
      at: 'screen',
      pulled: 0,
      press: 'screen 8, 77-55; mix 176 g, 3 mm off the paper, dry in 30 min',
    },
  ],
  square: codeSquaresOf(ADDRESS),
  shop: { name: 'Quillfield Print Room', demo: true },
  date: '2026-11-09',
}
const WIDTH_PX = 1240

async function pdfOf(ticket: JobTicket): Promise<Uint8Array> {
  const { sink, bytes } = memorySink()
  const pages = jobTicketPages(ticket, { letters: await openLetters() })
  await writeFilmPdf(pages, { sink, deflater: testDeflater })
  return bytes()
}

test('oracle iso216: a job ticket is a sound A4 sheet to other readers, five layers on each', async () => {
  const pdf = await pdfOf(TICKET)
  expect(await checkedByQpdf(pdf)).toBe(0)
  const { view } = await byPdfjs(pdf)
  near((view[2] * 25.4) / 72, 210, { within: 0.01, because: 'true to 0.01 mm' })
  near((view[3] * 25.4) / 72, 297, { within: 0.01, because: 'true to 0.01 mm' })
  const layers = Array.from({ length: 13 }, (_, at) => ({
    ...TICKET.layers[1],
    place: at + 1,
    shortName: `K4-B${at}`,
  })) as JobTicket['layers']
  const letters = await openLetters()
  expect(jobTicketPages({ ...TICKET, layers }, { letters })).toHaveLength(3)
})

test('oracle iso18004: its code leads to the ticket, as an independent reader reads the drawn page', async () => {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm')
  const wasmBinary = (await readFile(wasm)).buffer as ArrayBuffer
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true })
  const heightPx = Math.round((WIDTH_PX * 297) / 210)
  const { grey } = await byPdfium(await pdfOf(TICKET), { widthPx: WIDTH_PX, heightPx })
  const data = new Uint8ClampedArray(4 * grey.length)
  grey.forEach((value, at) => data.set([value, value, value, 255], 4 * at))
  const picture = { data, width: WIDTH_PX, height: heightPx, colorSpace: 'srgb' } as ImageData
  const found = await readBarcodes(picture, { formats: ['QRCode'] })
  expect(found.map(({ text }) => text)).toEqual([ADDRESS])
})

test('who can do the next thing is said whole: a long list of names takes a second row', async () => {
  const letters = await openLetters()
  const rowsWith = (next: string): number =>
    (jobTicketPages({ ...TICKET, next }, { letters })[0]?.items.length ?? 0) -
    (jobTicketPages({ ...TICKET, next: null }, { letters })[0]?.items.length ?? 0)
  expect(rowsWith('Next: black, screen. Anybody can do it.')).toBe(1)
  const names = 'Maro Linde, Tamsin Ore, Ruth Callow, Jonah Pell, Wren Achterberg and Dov Ashgrove'
  expect(rowsWith(`Next: black, screen. ${names} can do it: shown how, and it still holds.`)).toBe(
    2,
  )
})
