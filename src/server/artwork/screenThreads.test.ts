import { createHash } from 'node:crypto'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openArtwork } from '../../decode/artwork.ts'
import { openSpool } from '../../decode/spool.ts'
import { filmSize } from '../../workflow/makeFilms/filmSize.ts'
import { plateCount, type ScreenedPart } from '../../workflow/makeFilms/makeFilms.ts'
import { platesOf } from '../../workflow/makeFilms/plates.ts'
import { planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import { filmParts, screenedPlates, screenPart } from '../../workflow/makeFilms/screenPlates.ts'
import { screenThreads } from './screenThreads.ts'

const [WIDTH, HEIGHT] = [120, 150]
let folder = ''
let artwork = ''

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'yellowroom-threads-'))
  artwork = join(folder, 'discs.png')
  const rgb = Buffer.alloc(3 * WIDTH * HEIGHT, 255)
  for (let at = 0; at < WIDTH * HEIGHT; at++) {
    const [x, y] = [at % WIDTH, Math.floor(at / WIDTH)]
    const far = Math.hypot((x % 40) - 20, (y % 50) - 25)
    const colour =
      (Math.floor(x / 40) + Math.floor(y / 50)) % 2 === 0 ? [200, 30, 40] : [20, 60, 140]
    const cover = Math.min(1, Math.max(0, 17 - far))
    colour.forEach((level, channel) => {
      rgb[3 * at + channel] = Math.round(255 + cover * (level - 255))
    })
  }
  await sharp(rgb, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .png()
    .toFile(artwork)
})

afterAll(() => rm(folder, { recursive: true, force: true }))

const RED = { name: 'red', lab: [43, 62, 42] }
const BLUE = { name: 'blue', lab: [27, 12, -47] }
const HALFTONE = { kind: 'dot', shape: 'elliptical', rulingPerCm: 18, angleDeg: 22.5 }

test.each([
  ['flat colours, spread', { mode: 'line', inks: [RED, BLUE], spreadUm: 120 }],
  [
    'tones on an underbase, within what a fabric holds',
    {
      mode: 'spot',
      inks: [{ ...RED, tones: { least: 0.05, most: 0.9 } }, BLUE],
      underbase: { chokeUm: 150 },
      halftone: HALFTONE,
    },
  ],
  ['four inks, ends scattered', { mode: 'process', halftone: HALFTONE, fabric: '90-48' }],
])('parts screened in threads are the film that one thread screens: %s', async (_, wanted) => {
  const plan = planFromJson(JSON.stringify({ widthMm: 12, resolutionDpi: 720, ...wanted }))
  const opened = await openArtwork(artwork)
  const threads = screenThreads(artwork, { threads: 2 })
  const spools = await Promise.all(Array.from({ length: plateCount(plan) }, openSpool))
  try {
    const size = filmSize(plan, opened)
    const samples = await opened.samples({
      ...size,
      keepsCmyk: false,
      inks: plan.inks.map(({ name }) => name),
    })
    const rows = { from: 0, to: size.heightPx }
    const onShare = (): void => undefined
    const counts = await screenPart(platesOf(samples, plan, size), { size, rows, spools, onShare })
    const parted = await Promise.all(
      filmParts(size, 2).map((part) => threads.screen({ plan, size, rows: part }, onShare)),
    )
    const whole = await told([{ counts, spools }])
    expect(await told(parted)).toEqual(whole)
    expect(whole.every(({ coverageShare }) => coverageShare > 0.05)).toBe(true)

    async function told(parts: readonly ScreenedPart[]) {
      const { screened, coverage } = screenedPlates(parts, { size, plates: spools.length })
      return Promise.all(
        screened.map(async ({ coverageShare, bands }, at) => {
          const hash = createHash('sha256')
          for await (const { bits } of bands()) hash.update(bits)
          hash.update(new Uint8Array(coverage.shares[at]?.buffer ?? []))
          return { coverageShare, hash: hash.digest('hex') }
        }),
      )
    }
  } finally {
    await threads.close()
    for (const spool of spools) await spool.close()
    await opened.close()
  }
})

test('what a thread cannot do is a sentence, as if it had been done here', async () => {
  const plan = planFromJson('{"widthMm":20,"mode":"single"}')
  const threads = screenThreads(join(folder, 'gone.png'), { threads: 1 })
  try {
    const size = filmSize(plan, { proportion: 1, widthMm: null })
    const part = { plan, size, rows: { from: 0, to: 10 } }
    await expect(threads.screen(part, () => undefined)).rejects.toMatchObject({
      kind: 'missing file',
    })
  } finally {
    await threads.close()
  }
})
