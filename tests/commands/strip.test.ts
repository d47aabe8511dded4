import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { near } from '../../src/core/units/near.testing.ts'
import { sharp } from '../../src/decode/pixelLibrary.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../src/formats/pdfReaders.testing.ts'
import { json, refused, run } from './run.ts'

let folder = ''
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'yellowroom-strip-'))
})
afterAll(() => rm(folder, { recursive: true }))

const bytesOf = async (path: string): Promise<Uint8Array> => Uint8Array.from(await readFile(path))
const inFolder = (name: string): string => join(folder, name)
const strip = (...more: readonly string[]): readonly string[] => [
  'strip',
  '--low',
  '26',
  '--high',
  '62',
  '--bands',
  '6',
  ...more,
]

describe('the film of a strip', () => {
  const outs = (name: string): readonly string[] => [
    '--film',
    inFolder(`${name}.pdf`),
    '--tiff',
    inFolder(`${name}.tif`),
    '--resolution-dpi',
    '360',
    '--date',
    '2026-11-09',
    '--paper',
    'letter',
  ]

  test('says doses that can be set, whose settings make them up, and where its bands lie', async () => {
    const answer = await json(strip(...outs('one')))
    // the contract's own bands stay in equal ratios: 26 · (62/26)^(1/5) = 30.935, by hand
    const bands = answer['bands'] as { doseLu: number }[]
    near(bands[1].doseLu, 30.935, { within: 1e-3, because: 'three decimals by hand' })
    const film = answer['film'] as {
      bands: { number: number; doseLu: number }[]
      incrementsLu: number[]
      coverMm: number[]
    }
    expect(film.bands.map(({ doseLu }) => doseLu)).toEqual([26, 31, 37, 44, 52, 62])
    expect(film.incrementsLu).toEqual([10, 8, 7, 6, 5, 26])
    expect(film.coverMm).toHaveLength(7)
    expect(Math.max(...film.coverMm)).toBeLessThan(279.4)
  })

  test('is a sheet of Letter that pdf.js, pdfium and qpdf read, dated as asked', async () => {
    const pdf = await bytesOf(inFolder('one.pdf'))
    expect(await checkedByQpdf(pdf)).toBe(0)
    const { view, info } = await byPdfjs(pdf)
    expect(view.map((side) => Math.round(side * 1000) / 1000)).toEqual([0, 0, 612, 792])
    expect(info).toMatchObject({
      Title: 'Test film for doses',
      CreationDate: 'D:20261109000000Z',
    })
    const { grey } = await byPdfium(pdf, { widthPx: 306, heightPx: 396 })
    const ink = grey.reduce((sum, value) => sum + 1 - value / 255, 0) / grey.length
    expect(ink).toBeGreaterThan(0.03)
    expect(ink).toBeLessThan(0.3)
  })

  test('is the same in bits: as black as the PDF, in whole pixels of the page', async () => {
    const { width, height, density } = await sharp(inFolder('one.tif')).metadata()
    // 8.5 · 360 and 11 · 360
    expect([width, height, density]).toEqual([3060, 3960, 360])
    const { data } = await sharp(inFolder('one.tif'))
      .extractChannel(0)
      .raw()
      .toBuffer({ resolveWithObject: true })
    const pdf = await bytesOf(inFolder('one.pdf'))
    const { grey } = await byPdfium(pdf, { widthPx: 3060, heightPx: 3960 })
    let [black, differing] = [0, 0]
    for (let at = 0; at < grey.length; at++) {
      if (data[at] === 0) black += 1
      if ((data[at] === 0) !== grey[at] < 128) differing += 1
    }
    expect(black).toBeGreaterThan(500_000)
    // a reed of 0.06 mm is 0.85 pixels wide: its pixels are half grey in the other
    expect(differing / black).toBeLessThan(0.015)
  })

  test('is the same to the byte every time', async () => {
    await json(strip(...outs('two')))
    for (const kind of ['pdf', 'tif']) {
      const [one, two] = await Promise.all(
        ['one', 'two'].map((name) => bytesOf(inFolder(`${name}.${kind}`))),
      )
      expect(Buffer.compare(one, two)).toBe(0)
    }
  })

  test('is put on A4 unless asked, and has no date that was not given', async () => {
    await json(strip('--film', inFolder('a4.pdf')))
    const { view, info } = await byPdfjs(await bytesOf(inFolder('a4.pdf')))
    near((view[2] * 25.4) / 72, 210, { within: 0.01, because: 'the contract' })
    near((view[3] * 25.4) / 72, 297, { within: 0.01, because: 'the contract' })
    expect(info['CreationDate']).toBeUndefined()
  })

  test('people are told what is on it', async () => {
    const { out, exit } = await run(strip('--film', inFolder('told.pdf')))
    expect(exit).toBe(0)
    expect(out).toContain('band 6  62 light units\nSet 10, 8, 7, 6, 5, 26 one after another.')
    expect(out).toContain('These are the doses on the film')
  })

  test('replaces nothing unless forced, and then writes the same', async () => {
    const path = inFolder('kept.pdf')
    await writeFile(path, 'mine')
    const { exit, message } = await refused(strip('--film', path))
    expect([exit, message]).toEqual([
      2,
      `"${path}" is already there; write to another name, or add --force.`,
    ])
    expect(await readFile(path, 'utf8')).toBe('mine')
    expect((await run(strip('--film', path, '--force'))).exit).toBe(0)
    expect(await checkedByQpdf(await bytesOf(path))).toBe(0)
    expect((await readdir(folder)).filter((name) => name.includes('part'))).toEqual([])
  })
})

describe('what is wrong is said before anything is written', () => {
  test.each([
    [['--paper', 'letter'], 'paper', '--paper says nothing without --film; give both or neither.'],
    [
      ['--film', 'x.pdf', '--resolution-dpi', '600'],
      'resolution-dpi',
      '--resolution-dpi says nothing without --tiff; give both or neither.',
    ],
    [
      ['--film', 'x.pdf', '--paper', 'a5'],
      'paper',
      "The paper must be one of a4, letter. You wrote 'a5'.",
    ],
    [
      ['--film', 'x.pdf', '--date', '2026-02-30'],
      'date',
      "The date must be a day, like 2026-11-09. You wrote '2026-02-30'.",
    ],
  ])('%j', async (more, field, message) => {
    expect(await refused(strip(...more))).toMatchObject({
      exit: 2,
      kind: 'wrong input',
      field,
      message,
    })
  })

  test('more bands than a film holds', async () => {
    const asked = ['strip', '--low', '20', '--high', '90', '--bands', '13', '--film', 'x.pdf']
    expect(await refused(asked)).toMatchObject({
      exit: 2,
      field: 'bands',
      message: 'A film holds 3 to 12 bands. You asked for 13.',
    })
  })

  test('bands that no counter tells apart', async () => {
    const asked = ['strip', '--low', '50', '--high', '50.01', '--bands', '9', '--film', 'x.pdf']
    const { exit, message } = await refused(asked)
    expect(exit).toBe(2)
    expect(message).toContain('too close together to be set one by one')
  })

  test('one name for both files', async () => {
    const path = inFolder('both')
    const { message } = await refused(strip('--film', path, '--tiff', path))
    expect(message).toContain('is asked for twice')
  })
})
