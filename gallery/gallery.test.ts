import { existsSync } from 'node:fs'
import { readdir, readFile, rm } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
// @ts-expect-error: pngjs brings no types
import { PNG } from 'pngjs'
import { expect, test } from 'vitest'
import { PICTURES } from './pictures.mjs'

const place = (name: string): string =>
  fileURLToPath(new URL(`./pictures/${name}.png`, import.meta.url))
const draws = PICTURES

test('every picture kept has somebody who draws it', async () => {
  const kept = (await readdir(fileURLToPath(new URL('./pictures', import.meta.url))))
    .filter((name) => name.endsWith('.png') && !name.endsWith('-changed.png'))
    .map((name) => name.replace(/\.png$/, ''))
  expect(kept.sort()).toEqual(Object.keys(draws).sort())
})

// The pictures were looked at when they were kept; a difference is written beside them to be looked at again.
test.each(Object.keys(draws))(
  '%s is drawn as it was when somebody last looked at it',
  async (name) => {
    const changed = place(`${name}-changed`)
    await draws[name](changed)
    expect(existsSync(place(name)), `npm run gallery draws ${name}`).toBe(true)
    const [now, kept] = await Promise.all(
      [changed, place(name)].map(async (path) => PNG.sync.read(await readFile(path))),
    )
    expect([now.width, now.height]).toEqual([kept.width, kept.height])
    let differing = 0
    for (let at = 0; at < now.data.length; at += 4) {
      const far = [0, 1, 2].some(
        (channel) => Math.abs(now.data[at + channel] - kept.data[at + channel]) > 8,
      )
      if (far) differing += 1
    }
    // letters and rings are drawn by another library, whose smoothing may move in the last bits
    expect(differing / (now.width * now.height)).toBeLessThan(0.0005)
    await rm(changed)
  },
)
