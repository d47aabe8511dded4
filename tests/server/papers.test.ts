import { createRequire } from 'node:module'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { PATHS } from '../../src/api/paths.ts'
import { refusal } from '../../src/api/shop.ts'
import { gradePictures, notesRead, readingList } from '../../src/api/tests.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { byPdfium } from '../../src/formats/pdfReaders.testing.ts'
import { type Room, room } from './room.ts'

type Pngjs = Readonly<{
  PNG: Readonly<{
    sync: Readonly<{
      read: (bytes: Buffer) => Readonly<{ width: number; height: number; data: Buffer }>
    }>
  }>
}>
const { PNG } = createRequire(import.meta.url)('pngjs') as Pngjs

let shop: Room
const post = (path: string, body: unknown): Promise<Response> =>
  shop.ask(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  })
const bytes = async (path: string): Promise<Uint8Array> => {
  const answer = await shop.ask(path)
  if (answer.status !== 200) throw new Error(await answer.text())
  return new Uint8Array(await answer.arrayBuffer())
}

beforeAll(async () => {
  shop = await room()
  const made = await post(PATHS.ownShop, { shopName: 'A room of the tests' })
  expect(made.status).toBe(201)
})
afterAll(() => shop.close())

describe('papers', () => {
  test('the test film and the wall chart are pages of their true size (by pdfium)', async () => {
    const sheets = [
      [`${PATHS.stripPdf}?medium=soft+pencil&bands=6`, 210, 297],
      [`${PATHS.stripPdf}?paper=letter`, 215.9, 279.4],
      [`${PATHS.wallChart}?paper=a3`, 297, 420],
      [PATHS.wallChart, 297, 420],
    ] as const
    for (const [path, widthMm, heightMm] of sheets) {
      const at = { widthPx: 300, heightPx: 400 }
      const { pages, width, height, grey } = await byPdfium(await bytes(path), at)
      expect(pages).toBe(1)
      const because = 'true size; readers keep points as 32-bit floats'
      near((width * 25.4) / 72, widthMm, { within: 0.01, because })
      near((height * 25.4) / 72, heightMm, { within: 0.01, because })
      expect(grey.filter((level) => level < 128).length).toBeGreaterThan(2000)
    }
  })

  test('the test film as bits is the same sheet at its resolution, black on clear (by libtiff)', async () => {
    const film = sharp(await bytes(`${PATHS.stripTiff}?bands=5&resolutionDpi=300`))
    const { width, height, depth, density } = await film.metadata()
    expect([width, height, density]).toEqual([2480, 3508, 300]) // 210 x 297 mm: 2480.3 x 3507.9
    expect(depth).toBe('uchar') // as it is handed out, of one bit
    const { data } = await film.toColourspace('b-w').raw().toBuffer({ resolveWithObject: true })
    const black = data.filter((grey) => grey === 0).length / data.length
    expect(data.every((grey) => grey === 0 || grey === 255)).toBe(true)
    expect(black).toBeGreaterThan(0.03)
    expect(black).toBeLessThan(0.2)
  })

  test('what cannot be printed is said', async () => {
    const answers = await Promise.all(
      [
        `${PATHS.wallChart}?paper=a9`,
        `${PATHS.stripPdf}?bands=99`,
        `${PATHS.stripPdf}?medium=chalk`,
      ].map(async (path) => {
        const answer = await shop.ask(path)
        return [answer.status, refusal.parse(await answer.json()).error.field]
      }),
    )
    expect(answers).toEqual([
      [422, 'paper'],
      [422, 'bands'],
      [404, 'medium'],
    ])
  })
})

describe('pictures of the grades', () => {
  test('each of the five has its words and its picture, and they differ', async () => {
    const list = gradePictures.parse(await (await shop.ask(PATHS.grades)).json())
    expect(list.grades.map(({ grade }) => grade)).toEqual([
      'washed off',
      'soft',
      'good',
      'filling',
      'filled',
    ])
    const pictures = await Promise.all(
      list.grades.map(async ({ picture }) => PNG.sync.read(Buffer.from(await bytes(picture)))),
    )
    for (const { width, height } of pictures) expect([width, height]).toEqual([461, 354])
    expect(new Set(pictures.map(({ data }) => data.toString('base64'))).size).toBe(5)
  })

  test('there is none of anything else', async () => {
    expect((await shop.ask(`${PATHS.grades}/perfect.png`)).status).toBe(404)
  })
})

describe('old notes', () => {
  const TEXT = [
    'Day;Film;Light units;How it came out',
    '2026-03-02;soft pencil;40;good',
    '2026-03-09;soft pencil;forty;good',
    '2026-03-16;cut masking film;"70";good',
  ].join('\n')
  const count = async (): Promise<number> =>
    readingList.parse(await (await shop.ask(PATHS.readings)).json()).readings.length

  test('are looked through first, and nothing is taken down', async () => {
    const before = await count()
    const read = notesRead.parse(
      await (await post(PATHS.notes, { text: TEXT, dryRun: true })).json(),
    )
    expect(read).toMatchObject({ dryRun: true, lines: 3, taken: 2 })
    expect(read.problems).toEqual([
      { line: 3, message: expect.stringContaining("It says 'forty'.") as string },
    ])
    expect(await count()).toBe(before)
  })

  test('are taken down when somebody says so, and only once', async () => {
    const before = await count()
    const first = await post(PATHS.notes, { text: TEXT, dryRun: false })
    expect(notesRead.parse(await first.json())).toMatchObject({ dryRun: false, taken: 2 })
    expect(await count()).toBe(before + 2)
    const again = await post(PATHS.notes, { text: TEXT, dryRun: false })
    expect(notesRead.parse(await again.json())).toMatchObject({ taken: 0, lines: 3 })
    expect(await count()).toBe(before + 2)
  })

  test('that are no table are refused in a sentence', async () => {
    const answer = await post(PATHS.notes, { text: 'dear diary', dryRun: true })
    const { problems } = notesRead.parse(await answer.json())
    expect(problems[0]?.message).toMatch(/^Line 1: /)
  })
})
