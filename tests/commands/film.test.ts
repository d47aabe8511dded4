import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { near } from '../../src/core/units/near.testing.ts'
import { json, refused, run } from './run.ts'

type Pixels = { width: number; height: number; data: Buffer }
type Pngjs = {
  PNG: {
    new (options: Record<string, number>): Pixels
    sync: {
      read: (bytes: Buffer) => Pixels
      write: (png: Pixels, options: Record<string, number>) => Buffer
    }
  }
}
const { PNG } = createRequire(import.meta.url)('pngjs') as Pngjs

// A film of 20 x 15 mm at 50 um a pixel: left half solid black, right half clear.
const [WIDE, HIGH, PIXELS_PER_METRE] = [400, 300, 20_000]

let folder = ''
let film = ''
let setup = ''

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'yellowroom-commands-'))
  film = join(folder, 'film.png')
  setup = join(folder, 'setup.json')
  await writeFile(film, halfBlackPng())
  await writeFile(setup, '{}')
})
afterAll(() => rm(folder, { recursive: true, force: true }))

/** Written by an independent library, with its true size put in by hand: pHYs, pixels a metre. */
function halfBlackPng(): Buffer {
  const png = new PNG({ width: WIDE, height: HIGH, colorType: 0, inputColorType: 0 })
  png.data = Buffer.alloc(WIDE * HIGH, 255)
  for (let row = 0; row < HIGH; row += 1) png.data.fill(0, row * WIDE, row * WIDE + WIDE / 2)
  const bytes = PNG.sync.write(png, { colorType: 0, inputColorType: 0 })
  const physical = Buffer.alloc(21)
  physical.writeUInt32BE(9, 0)
  physical.write('pHYs', 4, 'latin1')
  physical.writeUInt32BE(PIXELS_PER_METRE, 8)
  physical.writeUInt32BE(PIXELS_PER_METRE, 12)
  physical[16] = 1
  physical.writeUInt32BE(crc32(physical.subarray(4, 17)), 17)
  return Buffer.concat([bytes.subarray(0, 33), physical, bytes.subarray(33)])
}

/** CRC of PNG, ISO 3309, bit by bit. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  }
  return (crc ^ 0xffffffff) >>> 0
}

describe('forecast', () => {
  const line = (...more: string[]): string[] => [
    'forecast',
    film,
    '--setup',
    setup,
    '--dose',
    '70',
    ...more,
  ]

  test('tells size, doses and shares by the keys of the contract', async () => {
    const answer = await json(line('--sweep', '20:90:3'))
    expect(answer).toMatchObject({
      kind: 'forecast',
      pixelUm: 50,
      widthMm: 20,
      heightMm: 15,
      doseLu: 70,
    })
    // 6 · exp(20/37) and 6 · exp(80/37)
    near(Number(answer['holdDoseLu']), 10.3016, { within: 1e-4, because: 'reckoned apart' })
    near(Number(answer['throughDoseLu']), 52.1394, { within: 1e-4, because: 'reckoned apart' })
    const share = answer['share'] as Record<string, number>
    near(share['open'], 0.5, { within: 0.02, because: 'the edge is soft over some tenths of a mm' })
    near(share['closed'], 0.5, {
      within: 0.02,
      because: 'the edge is soft over some tenths of a mm',
    })
    near(share['open'] + share['inDoubt'] + share['closed'], 1, {
      within: 1e-9,
      because: 'a whole',
    })
    const sweep = answer['sweep'] as { doseLu: number }[]
    expect(sweep.map(({ doseLu }) => Math.round(doseLu * 1000))).toEqual([20000, 42426, 90000])
  })

  test('writes the classes in the pixels of the film, and not over a file without --force', async () => {
    const out = join(folder, 'classes.png')
    expect((await run(line('--classes', out))).exit).toBe(0)
    const { width, height, data } = PNG.sync.read(await readFile(out))
    expect([width, height]).toEqual([WIDE, HIGH])
    const at = (x: number): number => data[(150 * WIDE + x) * 4]
    expect([at(20), at(380)]).toEqual([0, 255])
    const before = await readFile(out)
    expect(await refused(line('--classes', out))).toMatchObject({ exit: 2, kind: 'already there' })
    expect(await readFile(out)).toEqual(before)
    expect((await run(line('--classes', out, '--force'))).exit).toBe(0)
    await rm(out)
  })

  test('a place that cannot be written is exit 3, and nothing is left half-written', async () => {
    const before = await readdir(folder)
    const nowhere = join(folder, 'no', 'such', 'out.png')
    expect(await refused(line('--classes', nowhere))).toMatchObject({
      exit: 3,
      kind: 'cannot write',
    })
    expect(await refused(line('--classes', film, '--force'))).toMatchObject({ exit: 2 })
    expect(await readdir(folder)).toEqual(before)
  })

  test.each([
    ['--dose 42 --sweep 20', 'two doses and a count with colons between', 'sweep'],
    ['--dose 42 --sweep 20:90:5:1', 'colons', 'sweep'],
    ['--dose 42 --sweep 90:20:5', 'from a lower to a higher dose', 'sweep'],
    ['--dose 42 --sweep 20:90:1', 'a whole number from 2 to 1000', 'sweep'],
    ['--dose 42 --sweep a:b:c', "You wrote 'a'.", 'sweep'],
    ['--dose -1', 'from 0.01', 'dose'],
    ['--dose 42 --classes ', 'it is empty', 'classes'],
    ['--dose 42 --resolution-dpi 7200dpi', 'pixels per inch, like 720', 'resolution-dpi'],
    ['--dose 42 --resolution-dpi 1', 'from 50 to 6000', 'resolution-dpi'],
    ['--dose 42 --solid-density 0', 'from 0.3 to 6', 'solid-density'],
    ['--dose 42 --as negative', 'one of transmission, coverage', 'as'],
    ['', 'forecast needs --dose LU', 'dose'],
  ])('%s is refused', async (options, words, field) => {
    const given = options === '' ? [] : options.split(' ')
    const {
      exit,
      message,
      field: named,
    } = await refused(['forecast', film, '--setup', setup, ...given])
    expect(exit).toBe(2)
    expect(message).toContain(words)
    expect(named).toBe(field)
  })
})

describe('dose', () => {
  test('tells the dose, its room and the weakest mark', async () => {
    const answer = await json(['dose', film, '--setup', setup])
    expect(answer).toMatchObject({ kind: 'dose', verdict: 'durable' })
    near(Number(answer['lowLu']), 10.3016, { within: 0.103, because: 'the contract: 1 %' })
    near(Number(answer['fullLu']), 52.1394, { within: 0.52, because: 'the contract: 1 %' })
    const { recommendedLu, lowLu, highLu, latitudeSteps } = answer as Record<string, number>
    expect(recommendedLu).toBeGreaterThan(lowLu)
    expect(recommendedLu).toBeLessThan(highLu)
    near(latitudeSteps, Math.log10(highLu / lowLu) / 0.15, { within: 1e-9, because: 'rounding' })
    const mark = answer['weakestMark'] as Record<string, number>
    expect(mark['xMm']).toBeLessThan(10)
    near(mark['density'], 3.5, { within: 0.02, because: 'solid is 3.5 unless given' })
  })

  test('a film without marks has no dose to give, and says what to do', async () => {
    const { exit, message } = await refused(['dose', film, '--setup', setup, '--marks-above', '4'])
    expect(exit).toBe(2)
    expect(message).toContain('so there is no mark to open')
  })
})

describe('the setup file', () => {
  const dose = (path: string): Promise<unknown> => refused(['dose', film, '--setup', path])

  test.each([
    ['not json', 'is not JSON at line 1, column 1', 'unreadable file'],
    ['', 'The setup is empty', 'unreadable file'],
    ['[]', 'must be an object in braces', 'wrong input'],
    ['{"lamp":{"distanceMm":"80cm"}}', 'lamp.distanceMm must be a number', 'wrong input'],
    ['{"emulsions":{}}', 'Did you mean emulsion?', 'wrong input'],
    ['\u0000\u0001', 'is not JSON', 'unreadable file'],
  ])('%j', async (text, words, kind) => {
    const path = join(folder, 'other.json')
    await writeFile(path, text)
    expect(await dose(path)).toMatchObject({
      exit: 2,
      kind,
      message: expect.stringContaining(words),
    })
  })

  test('missing, a folder, no text, too long', async () => {
    const path = join(folder, 'other.json')
    const says = (kind: string, words: string): object => ({
      exit: 2,
      kind,
      field: 'setup',
      message: expect.stringContaining(words),
    })
    expect(await dose(join(folder, 'none.json'))).toMatchObject(
      says('missing file', 'There is no setup'),
    )
    expect(await dose(folder)).toMatchObject(says('unreadable file', 'is a folder'))
    await writeFile(path, Buffer.from([0x7b, 0xff, 0xfe, 0x7d]))
    expect(await dose(path)).toMatchObject(says('unreadable file', 'no text in UTF-8'))
    await writeFile(path, ' '.repeat(1_000_001))
    expect(await dose(path)).toMatchObject(says('too large', 'longer than a megabyte'))
  })
})

test('the film file: missing, empty, a text, a folder', async () => {
  const at = (path: string): Promise<unknown> => refused(['dose', path, '--setup', setup])
  await writeFile(join(folder, 'empty.png'), '')
  await writeFile(join(folder, 'text.png'), 'a text')
  expect(await at(join(folder, 'none.png'))).toMatchObject({ exit: 2, kind: 'missing file' })
  expect(await at(join(folder, 'empty.png'))).toMatchObject({ exit: 2, kind: 'unreadable file' })
  expect(await at(join(folder, 'text.png'))).toMatchObject({ exit: 2, kind: 'unreadable file' })
  expect(await at(folder)).toMatchObject({ exit: 2, kind: 'unreadable file' })
  expect(await at('')).toMatchObject({ exit: 2, kind: 'wrong input', field: 'FILM' })
})
