import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { openArtwork } from './artwork.ts'

const folder = mkdtempSync(join(tmpdir(), 'yellowroom-cmyk-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A TIFF of four inks with sixteen bits a sample, laid out by hand. */
function deepTiff(samples: Uint16Array, [width, height]: readonly [number, number]): Uint8Array {
  const entries = [
    [256, 3, 1, width],
    [257, 3, 1, height],
    [258, 3, 4, 8 + 2 + 12 * 9 + 4], // four times 16 stand behind the directory
    [259, 3, 1, 1],
    [262, 3, 1, 5], // separated
    [273, 4, 1, 8 + 2 + 12 * 9 + 4 + 8],
    [277, 3, 1, 4],
    [278, 3, 1, height],
    [279, 4, 1, 2 * samples.length],
  ] as const
  const head = Buffer.alloc(8 + 2 + 12 * entries.length + 4 + 8)
  head.write('II*\0', 'latin1')
  head.writeUInt32LE(8, 4)
  head.writeUInt16LE(entries.length, 8)
  entries.forEach(([tag, type, count, value], at) => {
    head.writeUInt16LE(tag, 10 + 12 * at)
    head.writeUInt16LE(type, 12 + 12 * at)
    head.writeUInt32LE(count, 14 + 12 * at)
    head.writeUInt32LE(value, 18 + 12 * at)
  })
  for (let at = 0; at < 4; at++) head.writeUInt16LE(16, head.length - 8 + 2 * at)
  const body = Buffer.alloc(2 * samples.length)
  samples.forEach((sample, at) => body.writeUInt16LE(sample, 2 * at))
  return Buffer.concat([head, body])
}

test('four inks of sixteen bits pass through, each level rounded to eight', async () => {
  const [width, height] = [40, 30]
  const samples = Uint16Array.from(
    { length: 4 * width * height },
    (_, at) => (at * 2741 + (at % 4) * 9001) % 65_536,
  )
  const path = join(folder, 'deep.tif')
  writeFileSync(path, deepTiff(samples, [width, height]))
  const opened = await openArtwork(path)
  try {
    const film = { widthPx: 400, heightPx: 300, keepsCmyk: true, inks: [] }
    const artwork = await opened.samples(film)
    expect([artwork.space, artwork.widthPx, opened.statesCmyk]).toEqual(['cmyk', width, true])
    const read: number[] = []
    for await (const band of artwork.bands()) read.push(...band.samples)
    expect(read).toEqual([...samples].map((sample) => Math.round(sample / 257)))
  } finally {
    await opened.close()
  }
})
