import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import sharp from 'sharp'
import UTIF from 'utif2'
import { describe, expect, test } from 'vitest'
import { near } from '../../src/core/units/near.testing.ts'
import { temporary } from '../../src/decode/temporary.testing.ts'
import { byPdfium, byPdfjs, checkedByQpdf } from '../../src/formats/pdfReaders.testing.ts'
import { json, refused, run } from './run.ts'

const { path, put, leftovers: allLeftovers } = temporary()

/** The product's fonts stay unpacked as long as the process. */
const leftovers = (): readonly string[] =>
  allLeftovers().filter((name) => !name.startsWith('yellowroom-fonts-'))

type Record_ = Readonly<{
  kind: string
  widthMm: number
  films: readonly Readonly<{ ink: string; pdf: string; tiff: string; coverageShare: number }>[]
}>

let folders = 0

/** Films of an artwork by a plan, in a folder of their own. */
async function made(
  artwork: string,
  plan: object,
): Promise<Record_ & Readonly<{ folder: string }>> {
  folders += 1
  const folder = path(`out-${folders}`)
  const file = put(`plan-${folders}.json`, JSON.stringify(plan))
  const record = await json(['films', artwork, '--plan', file, '--out', folder])
  expect(JSON.parse(readFileSync(join(folder, 'films.json'), 'utf8'))).toEqual(record)
  expect(leftovers()).toEqual([])
  return { ...(record as unknown as Record_), folder }
}

/** A film's TIFF by an independent reader: 1 for black. */
function bitsOf(
  file: string,
): Readonly<{ width: number; height: number; dpi: number; at: (x: number, y: number) => number }> {
  const bytes = new Uint8Array(readFileSync(file))
  const [page] = UTIF.decode(bytes.buffer)
  if (page === undefined) throw new Error('utif2 found no page')
  UTIF.decodeImage(bytes.buffer, page)
  const [[[dots, per]]] = [page['t282'] as unknown as number[][]]
  const rowBytes = Math.ceil(page.width / 8)
  return {
    width: page.width,
    height: page.height,
    dpi: dots / per,
    at: (x, y) => (page.data[y * rowBytes + (x >> 3)] >> (7 - (x & 7))) & 1,
  }
}

function coverage({ width, height, at }: ReturnType<typeof bitsOf>): number {
  let black = 0
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) black += at(x, y)
  return black / (width * height)
}

async function flat(name: string, grey: number, [width, height] = [120, 80]): Promise<string> {
  const raw = { width, height, channels: 1 } as const
  const pixels = new Uint8Array(width * height).fill(grey)
  return put(name, await sharp(pixels, { raw }).toColourspace('b-w').png().toBuffer())
}

const svg = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20">${inner}</svg>`

const RED = { name: 'Red', lab: [54.29, 80.8, 69.89], opacity: 0.9 }
const BLUE = { name: 'Blue', lab: [29.57, 68.29, -112.03], opacity: 0.5 }

test('a flat grey covers 1 − its value, page and pixels are true, and independent readers agree', async () => {
  const artwork = await flat('grey.png', 77)
  const dot = { kind: 'dot', shape: 'round', rulingPerCm: 18, angleDeg: 22.5 }
  const plan = { widthMm: 33.3, resolutionDpi: 720, mode: 'single', halftone: dot }
  const { films, folder } = await made(artwork, plan)
  expect(films.map(({ ink, pdf, tiff }) => [ink, pdf, tiff])).toEqual([
    ['black', '1-black.pdf', '1-black.tif'],
  ])
  near(films[0].coverageShare, 1 - 77 / 255, { within: 1 / 255, because: 'a grey level' })
  const bits = bitsOf(join(folder, '1-black.tif'))
  expect([bits.width, bits.height, bits.dpi]).toEqual([944, 629, 720])
  near(coverage(bits), films[0].coverageShare, { within: 1e-12, because: 'the same bits' })
  const pdf = new Uint8Array(readFileSync(join(folder, '1-black.pdf')))
  expect(await checkedByQpdf(pdf)).toBe(0)
  const { view, images } = await byPdfjs(pdf)
  near((view[2] * 25.4) / 72, 33.3, { within: 0.01, because: 'the contract' })
  near((view[3] * 25.4) / 72, 22.2, { within: 0.01, because: 'the contract' })
  expect(images.map(({ width, height }) => [width, height])).toEqual([[944, 629]])
  const { grey } = await byPdfium(pdf, { widthPx: 944, heightPx: 629 })
  const black = grey.reduce((sum, value) => sum + (value < 128 ? 1 : 0), 0) / grey.length
  near(black, films[0].coverageShare, { within: 0.002, because: 'its page ends within a pixel' })
})

test('the same artwork and plan give the same bytes', async () => {
  const artwork = await flat('again.png', 140)
  const plan = { widthMm: 20, mode: 'single', halftone: { kind: 'stochastic', seed: 5 } }
  const [one, two] = [await made(artwork, plan), await made(artwork, plan)]
  for (const name of ['1-black.pdf', '1-black.tif', 'films.json', 'proof.png']) {
    expect(readFileSync(join(one.folder, name)).equals(readFileSync(join(two.folder, name)))).toBe(
      true,
    )
  }
  near(one.films[0].coverageShare, 1 - 140 / 255, { within: 0.002, because: 'the contract' })
})

test('line: a drawing parts into its inks at true size, right-reading, and a spread moves each edge', async () => {
  const drawing = svg(
    '<rect x="3" y="4" width="12" height="5" fill="#f00"/><rect x="20" y="11" width="6" height="6" fill="#00f"/>',
  )
  const artwork = put('two.svg', drawing)
  const { films, folder } = await made(artwork, { mode: 'line', inks: [RED, BLUE] })
  near(films[0].coverageShare, 60 / 600, { within: 0.001, because: 'edges in whole pixels' })
  near(films[1].coverageShare, 36 / 600, { within: 0.001, because: 'edges in whole pixels' })
  const bits = bitsOf(join(folder, films[0].tiff))
  const at = (xMm: number, yMm: number): number =>
    bits.at(Math.floor((xMm * 720) / 25.4), Math.floor((yMm * 720) / 25.4))
  expect([at(4, 5), at(14, 8), at(23, 14), at(26, 15), at(4, 15)]).toEqual([1, 1, 0, 0, 0])
  const spread = await made(artwork, { mode: 'line', inks: [RED, BLUE], spreadUm: 500 })
  // a half millimetre all round, corners rounded: 13 × 6 − (4 − π)/4
  near(spread.films[0].coverageShare * 600, 78 - (4 - Math.PI) / 4, {
    within: 0.7,
    because: 'a pixel of 35 um at each edge',
  })
  const choked = await made(artwork, { mode: 'line', inks: [RED, BLUE], chokeUm: 500 })
  near(choked.films[0].coverageShare * 600, 44, { within: 0.6, because: 'as above' })
})

test('process: a CMYK picture passes through untouched', async () => {
  const pixels = Uint8Array.from({ length: 60 * 40 * 4 }, (_, at) => [26, 102, 179, 51][at % 4])
  const artwork = put('cmyk.tif', cmykTiff(pixels, [60, 40]))
  const inks = ['cyan', 'magenta', 'yellow', 'black'].map((name, at) => ({
    name,
    angleDeg: [15, 75, 0, 45][at],
  }))
  const { films } = await made(artwork, { widthMm: 25, mode: 'process', inks })
  for (const [at, level] of [26, 102, 179, 51].entries()) {
    near(films[at].coverageShare, level / 255, {
      within: 1.5 / 255,
      because: 'a grey level, at 0 and 45° scattered',
    })
  }
})

test('spot: solids of the inks are solid on their own film, and white is on none', async () => {
  const artwork = put(
    'spot.svg',
    svg(
      '<rect x="3" y="4" width="12" height="5" fill="#f00"/><rect x="20" y="11" width="6" height="6" fill="#00f"/>',
    ),
  )
  const { films, folder } = await made(artwork, { mode: 'spot', inks: [RED, BLUE] })
  near(films[0].coverageShare, 60 / 600, { within: 0.001, because: 'edges in whole pixels' })
  near(films[1].coverageShare, 36 / 600, { within: 0.001, because: 'edges in whole pixels' })
  const blue = bitsOf(join(folder, films[1].tiff))
  const px = (mm: number): number => Math.floor((mm * 720) / 25.4)
  expect([blue.at(px(23), px(14)), blue.at(px(9), px(6)), blue.at(px(1), px(1))]).toEqual([1, 0, 0])
})

/** A page of 100 by 80 points by hand: process colours, a spot colour of its own, another, and red. */
function inkPdf(): Uint8Array {
  const tint = '<< /FunctionType 2 /Domain [0 1] /C0 [0 0 0 0] /C1 [0 0.9 0.8 0] /N 1 >>'
  const spot = (name: string): string => `[/Separation /${name} /DeviceCMYK ${tint}]`
  const content = [
    '0.2 0.4 0.7 0.1 k 10 10 30 20 re f',
    '/S1 cs 0.35 scn 50 10 40 20 re f',
    '1 0 0 rg 10 40 20 20 re f',
    '/S2 cs 1 scn 60 40 20 20 re f',
  ].join('\n')
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 100 80] /Contents 4 0 R /Resources << /ColorSpace << /S1 ${spot('Warm#20Red')} /S2 ${spot('Other')} >> >> >>`,
    `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
  ]
  let text = '%PDF-1.4\n'
  const offsets = objects.map((object, at) => {
    const offset = text.length
    text += `${at + 1} 0 obj\n${object}\nendobj\n`
    return `${String(offset).padStart(10, '0')} 00000 n \n`
  })
  const table = `xref\n0 5\n0000000000 65535 f \n${offsets.join('')}`
  return Buffer.from(
    `${text}${table}trailer << /Size 5 /Root 1 0 R >>\nstartxref\n${text.length}\n%%EOF`,
    'latin1',
  )
}

/** How much of a box of the page, in points from its top left, is black. */
function boxOf(file: string, [left, top, right, bottom]: readonly number[]): number {
  const { width, height, at } = bitsOf(file)
  let [black, all] = [0, 0]
  for (let y = Math.ceil((top / 80) * height) + 4; y < (bottom / 80) * height - 4; y++) {
    for (let x = Math.ceil((left / 100) * width) + 4; x < (right / 100) * width - 4; x++) {
      black += at(x, y)
      all += 1
    }
  }
  return black / all
}

test('process: a PDF’s own CMYK passes through untouched, at true size', async () => {
  const artwork = put('inks.pdf', inkPdf())
  const { films, folder, widthMm } = await made(artwork, { mode: 'process', scale: 2 })
  near(widthMm, (200 * 25.4) / 72, { within: 0.01, because: 'twice a hundred points' })
  for (const [at, share] of [0.2, 0.4, 0.7, 0.1].entries()) {
    const got = boxOf(join(folder, films[at].tiff), [10, 50, 40, 70])
    near(got, share, { within: 0.012, because: 'eleven by eight cells, cut at their rim' })
    const red = boxOf(join(folder, films[at].tiff), [10, 20, 30, 40])
    expect(red).toBe(at === 1 || at === 2 ? 1 : 0)
  }
})

test('a PDF’s own spot colour passes through by its name, in flat colours and in tones', async () => {
  const artwork = put('inks.pdf', inkPdf())
  const inks = [{ name: 'Warm red', lab: [55, 70, 50], opacity: 0.6 }, BLUE]
  for (const mode of ['line', 'spot'] as const) {
    const { films, folder } = await made(artwork, { mode, scale: 2, inks })
    const [own, blue] = films.map(({ tiff }) => boxOf(join(folder, tiff), [50, 50, 90, 70]))
    near(own, 0.35, { within: 0.012, because: 'as above' })
    expect(blue).toBe(0)
    expect(boxOf(join(folder, films[0].tiff), [10, 20, 30, 40])).toBe(1)
  }
})

// The TIFF of the same film is the measure: it is read by libtiff, its bits are checked by utif2 above.
test('a film’s PDF is read as a film, bit for bit as its TIFF; another’s PDF is refused', async () => {
  const artwork = await flat('asFilm.png', 140)
  const halftone = { kind: 'dot', shape: 'round', rulingPerCm: 18, angleDeg: 22.5 }
  const inks = [{ name: 'black', lab: [10, 0, 0], opacity: 1 }]
  // 787.4 pixels wide, so that page and pixels do not end together
  const plan = { widthMm: 33.333, resolutionDpi: 600, mode: 'single', inks, halftone }
  const { films, folder } = await made(artwork, plan)
  const setup = put('setup.json', '{"scatter":{"weight":0},"contact":{"gapUm":0}}')
  const forecast = async (file: string, ...more: readonly string[]) => {
    const classes = `${file}.classes.png`
    const asked = ['forecast', file, '--setup', setup, '--dose', '42', '--classes', classes]
    const record = await json([...asked, '--force', ...more])
    return { record, classes: readFileSync(classes) }
  }
  const [pdf, tiff] = [join(folder, films[0].pdf), join(folder, films[0].tiff)]
  expect(await forecast(pdf)).toEqual(await forecast(tiff))
  const weaker = ['--solid-density', '1.2', '--resolution-dpi', '300']
  expect(await forecast(pdf, ...weaker)).toEqual(await forecast(tiff, ...weaker))
  const foreign = put('foreign.pdf', inkPdf())
  const { message, exit } = await refused(['forecast', foreign, '--setup', setup, '--dose', '42'])
  expect(exit).toBe(2)
  expect(message).toMatch(/foreign\.pdf" is a PDF that was not made here, .*; export the page as/)
})

test('marks lie at the same pixels on every plate, and the page grows about the artwork', async () => {
  const artwork = put('marks.svg', svg('<rect width="30" height="20" fill="#f00"/>'))
  const marks = { registration: true, label: true, scaleBar: true, stepStrip: false }
  const { films, folder, widthMm } = await made(artwork, {
    mode: 'line',
    resolutionDpi: 300,
    inks: [RED, BLUE],
    marks,
  })
  expect(films.map(({ coverageShare }) => coverageShare)).toEqual([1, 0])
  const [red, blue] = films.map(({ tiff }) => bitsOf(join(folder, tiff)))
  expect(widthMm).toBeGreaterThan(130)
  const corner = (7 * 300) / 25.4
  let crossPixels = 0
  for (let y = 0; y < 170; y++) {
    for (let x = 0; x < 170; x++) {
      expect(red.at(x, y)).toBe(blue.at(x, y))
      crossPixels += red.at(x, y)
    }
  }
  expect(crossPixels).toBeGreaterThan(300)
  expect(red.at(Math.floor(corner), Math.floor(corner) - 20)).toBe(1)
})

test('a sheet parts the film into pages that overlap, the TIFF stays whole', async () => {
  const artwork = put('large.svg', svg('<circle cx="15" cy="10" r="9" fill="#f00"/>'))
  const { films, folder } = await made(artwork, {
    widthMm: 150,
    resolutionDpi: 150,
    mode: 'line',
    inks: [RED],
    sheet: { widthMm: 90, heightMm: 120, overlapMm: 10 },
  })
  const pdf = new Uint8Array(readFileSync(join(folder, films[0].pdf)))
  const first = await byPdfjs(pdf)
  expect(first.pages).toBe(2)
  near((first.view[2] * 25.4) / 72, 90, { within: 0.01, because: 'the sheet' })
  const second = await byPdfjs(pdf, { page: 1 })
  const widths = [...first.images, ...second.images].map(({ width }) => width)
  // 150 mm at 150 dpi are 886 pixels; the overlap is 10 mm and what whole bytes need
  near(widths[0] + widths[1] - 886, (10 * 150) / 25.4, { within: 9, because: 'whole bytes' })
  expect(bitsOf(join(folder, films[0].tiff)).width).toBe(886)
})

describe('what is wrong with a plan is one sentence, exit 2, and leaves nothing behind', () => {
  const cases: readonly (readonly [string, object | string, string])[] = [
    ['no JSON', '{"mode":', 'is not JSON'],
    ['no mode', {}, 'mode is missing'],
    ['a mode of its own', { mode: 'gravure' }, 'mode must be'],
    ['an unknown key', { mode: 'single', widhtMm: 3 }, 'Did you mean widthMm?'],
    ['two sizes', { mode: 'single', widthMm: 30, heightMm: 20 }, 'both say the size'],
    ['no resolution', { mode: 'single', widthMm: 30, resolutionDpi: 0 }, 'resolutionDpi must be'],
    ['no inks', { mode: 'line', widthMm: 30 }, 'inks is missing'],
    ['an empty list of inks', { mode: 'spot', widthMm: 30, inks: [] }, 'inks must be a list'],
    [
      'an ink without colour',
      { mode: 'line', widthMm: 30, inks: [{ name: 'red' }] },
      'lab is missing',
    ],
    ['two for one', { mode: 'single', widthMm: 30, inks: [RED, BLUE] }, 'prints one ink'],
    [
      'a ruling too fine',
      {
        mode: 'single',
        widthMm: 30,
        resolutionDpi: 300,
        halftone: { kind: 'dot', rulingPerCm: 60 },
      },
      'finer than 300 dpi can draw',
    ],
    [
      'choke and spread',
      { mode: 'single', widthMm: 30, chokeUm: 50, spreadUm: 50 },
      'both move the same edges',
    ],
    ['no format', { mode: 'single', widthMm: 30, format: ['png'] }, 'format must be'],
    ['no size anywhere', { mode: 'single' }, 'does not state its size'],
    ['too large', { mode: 'single', widthMm: 4000, resolutionDpi: 2400 }, 'million pixels'],
    [
      'a fabric too coarse for its dots',
      { mode: 'single', widthMm: 30, fabric: '43-80', halftone: { kind: 'dot', rulingPerCm: 40 } },
      'finer than the fabric holds at any tone',
    ],
    [
      'a print that turns back',
      {
        mode: 'line',
        widthMm: 30,
        inks: [
          {
            ...RED,
            printed: [
              [0.5, 0.6],
              [0.4, 0.7],
            ],
          },
        ],
      },
      'pairs of film and print that rise',
    ],
    ['an opacity of 3', { mode: 'line', widthMm: 30, inks: [{ ...RED, opacity: 3 }] }, 'opacity'],
    [
      'marks that are words',
      { mode: 'single', widthMm: 30, marks: { label: 'yes' } },
      'true or false',
    ],
  ]
  test.each(cases)('%s', async (name, plan, words) => {
    const raw = { width: 6, height: 4, channels: 3 } as const
    const artwork = put('wrong.webp', await sharp(new Uint8Array(72), { raw }).webp().toBuffer())
    const file = put('wrong.json', typeof plan === 'string' ? plan : JSON.stringify(plan))
    const folder = path('never')
    const { exit, message } = await refused(['films', artwork, '--plan', file, '--out', folder])
    expect([exit, message], name).toEqual([2, expect.stringContaining(words)])
    expect(message).toMatch(/^[^\n]+[.?]$/)
    expect(existsSync(folder)).toBe(false)
    expect(leftovers()).toEqual([])
  })
})

describe('artwork that is none', () => {
  const link =
    '<image width="3" height="3" xlink:href="/etc/hostname.png" xmlns:xlink="http://www.w3.org/1999/xlink"/>'
  const cases: readonly (readonly [string, string | Uint8Array, string])[] = [
    ['empty.png', '', 'is empty'],
    ['text.svg', 'Dose 43\n', 'is a text'],
    ['zip.png', 'PK\x03\x04\x14\0\0\0\x08\0', 'is a zip'],
    ['head.png', '\x89PNG\r\n\x1a\n', 'is damaged'],
    ['cut.pdf', '%PDF-1.7\n1 0 obj\n<<', 'is damaged or no PDF'],
    [
      'broken.svg',
      '<svg xmlns="http://www.w3.org/2000/svg" width="3" height="3"><path',
      'no drawing',
    ],
    ['sizeless.svg', '<svg xmlns="http://www.w3.org/2000/svg"><path/></svg>', 'neither its size'],
    ['other.svg', svg(link), 'refers to other files'],
    ['net.svg', svg('<use href="https://example.org/a.svg#b"/>'), 'refers to other files'],
    ['entity.svg', `<!DOCTYPE svg [<!ENTITY e "x">]>${svg('')}`, 'entities'],
  ]
  test.each(cases)('%s', async (name, bytes, words) => {
    const artwork = put(name, typeof bytes === 'string' ? Buffer.from(bytes, 'latin1') : bytes)
    const file = put('fine.json', JSON.stringify({ widthMm: 20, mode: 'single' }))
    const folder = path('nowhere')
    const answer = await refused(['films', artwork, '--plan', file, '--out', folder])
    expect([answer.exit, answer.message]).toEqual([2, expect.stringContaining(words)])
    expect(answer.message).toMatch(/^[^\n]+[,;] [^\n]+\.$/)
    expect(existsSync(folder)).toBe(false)
  })

  test('a picture cut off half way leaves nothing behind', async () => {
    const noise = Uint8Array.from({ length: 300 * 200 }, (_, at) => (at * 2_654_435_761) >>> 24)
    const raw = { width: 300, height: 200, channels: 1 } as const
    const whole = await sharp(noise, { raw }).png().toBuffer()
    const artwork = put('half.png', whole.subarray(0, whole.length / 2))
    const file = put('fine.json', JSON.stringify({ widthMm: 20, mode: 'single' }))
    const folder = path('nothing')
    const answer = await refused(['films', artwork, '--plan', file, '--out', folder])
    expect([answer.exit, answer.message]).toEqual([2, expect.stringContaining('is damaged')])
    expect(existsSync(folder)).toBe(false)
    expect(leftovers()).toEqual([])
  })
})

test('films that are there stay unless forced, and nothing else in the folder is touched', async () => {
  const artwork = await flat('there.png', 30, [6, 4])
  const plan = put('there.json', JSON.stringify({ widthMm: 10, mode: 'single' }))
  const folder = path('full')
  mkdirSync(folder)
  writeFileSync(join(folder, '1-black.tif'), 'mine')
  const args = ['films', artwork, '--plan', plan, '--out', folder]
  expect(await refused(args)).toMatchObject({ exit: 2, kind: 'already there' })
  expect(readdirSync(folder)).toEqual(['1-black.tif'])
  expect((await run([...args, '--force'])).exit).toBe(0)
  expect(readdirSync(folder).toSorted()).toEqual([
    '1-black.pdf',
    '1-black.tif',
    'films.json',
    'proof.png',
  ])
})

/** A CMYK picture as a plain TIFF, by hand: libraries convert. */
function cmykTiff(pixels: Uint8Array, [width, height]: readonly [number, number]): Uint8Array {
  const fields = [
    [256, 4, 1, width],
    [257, 4, 1, height],
    [258, 3, 4, 0],
    [259, 3, 1, 1],
    [262, 3, 1, 5],
    [273, 4, 1, 0],
    [277, 3, 1, 4],
    [278, 4, 1, height],
    [279, 4, 1, pixels.length],
  ]
  const directoryEnd = 8 + 2 + 12 * fields.length + 4
  const bytes = Buffer.alloc(directoryEnd + 8 + pixels.length)
  bytes.write('II*\0', 'latin1')
  bytes.writeUInt32LE(8, 4)
  bytes.writeUInt16LE(fields.length, 8)
  fields.forEach(([tag, type, count, value], at) => {
    const place = 10 + 12 * at
    bytes.writeUInt16LE(tag, place)
    bytes.writeUInt16LE(type, place + 2)
    bytes.writeUInt32LE(count, place + 4)
    const known = tag === 258 ? directoryEnd : tag === 273 ? directoryEnd + 8 : value
    if (type === 3 && count === 1) bytes.writeUInt16LE(known, place + 8)
    else bytes.writeUInt32LE(known, place + 8)
  })
  for (let at = 0; at < 4; at++) bytes.writeUInt16LE(8, directoryEnd + 2 * at)
  bytes.set(pixels, directoryEnd + 8)
  return bytes
}
