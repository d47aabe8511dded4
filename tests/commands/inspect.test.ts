import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import sharp, { type Sharp } from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { json, run } from './run.ts'

const PHOTO = 'docs/example/screen.jpg'
const FILM = 'docs/example/pencil.png'

let folder = ''

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'yellowroom-inspect-'))
})

afterAll(async () => {
  await rm(folder, { recursive: true })
})

type Told = Readonly<{ kind: string; xMm: number; yMm: number; areaMm2: number; widthUm: number }>

/** What docs/example/drawScreen.mjs put in: a hole 2.4 mm across and a scratch 18 by 1 mm. */
const DRAWN: readonly Told[] = [
  { kind: 'scratch', xMm: 150, yMm: 245, areaMm2: 18, widthUm: 1000 },
  { kind: 'pinhole', xMm: 72, yMm: 128, areaMm2: 4.52, widthUm: 2400 },
]

function expectDrawn(findings: unknown): void {
  const told = findings as readonly Told[]
  expect(told.map(({ kind }) => kind)).toEqual(DRAWN.map(({ kind }) => kind))
  for (const [at, drawn] of DRAWN.entries()) {
    const { xMm, yMm, areaMm2, widthUm } = told[at] ?? drawn
    expect(Math.hypot(xMm - drawn.xMm, yMm - drawn.yMm)).toBeLessThan(0.5)
    expect(Math.abs(areaMm2 / drawn.areaMm2 - 1)).toBeLessThan(0.1)
    expect(Math.abs(widthUm / drawn.widthUm - 1)).toBeLessThan(0.15)
  }
}

describe('inspect', () => {
  test('tells what was put into the drawn photo, and nothing else', async () => {
    const answer = await json(['inspect', PHOTO, '--film', FILM])
    expect(answer).toMatchObject({
      kind: 'inspection',
      verdict: 'spot it',
      mirrored: false,
      warnings: [],
    })
    expectDrawn(answer['findings'])
  })

  test('the other way round is said first, and places stay the film’s', async () => {
    const mirrored = join(folder, 'mirrored.png')
    await sharp(PHOTO).flop().rotate(90).toFile(mirrored)
    const answer = await json(['inspect', mirrored, '--film', FILM])
    expect(answer).toMatchObject({ verdict: 'spot it', mirrored: true })
    expect((answer['warnings'] as readonly string[])[0]).toMatch(/the other way round/)
    expectDrawn(answer['findings'])
  })

  test('given corners may be rough and begin anywhere', async () => {
    // read off the drawn photo by its own formula, then moved by 4 or 5 pixels
    const corners = '925,186,931,1308,58,1314,144,129'
    const answer = await json(['inspect', PHOTO, '--film', FILM, '--corners', corners])
    expectDrawn(answer['findings'])
  })

  test('a limit of 2 mm leaves the hole, not the scratch', async () => {
    const answer = await json(['inspect', PHOTO, '--film', FILM, '--limit-um', '2000'])
    expect(answer['resolutionUm']).toBe(2000)
    expect((answer['findings'] as readonly Told[]).map(({ kind }) => kind)).toEqual(['pinhole'])
  })

  test('the spotting list is the same to the byte, and is not written over', async () => {
    const out = join(folder, 'spots.pdf')
    const line = ['inspect', PHOTO, '--film', FILM, '--spotting', out, '--date', '2026-11-09']
    expect((await run(line)).exit).toBe(0)
    const first = await readFile(out)
    expect(first.subarray(0, 5).toString()).toBe('%PDF-')
    expect((await run(line)).exit).toBe(2)
    expect((await run([...line, '--force'])).exit).toBe(0)
    expect(Buffer.compare(await readFile(out), first)).toBe(0)
  })

  const REFUSED: Readonly<Record<string, () => Sharp>> = {
    'cut off': () => sharp(PHOTO).extract({ left: 0, top: 0, width: 1050, height: 800 }),
    blurred: () => sharp(PHOTO).blur(9),
    'a negative': () => sharp(PHOTO).negate(),
    'a plain wall': () =>
      sharp({ create: { width: 900, height: 700, channels: 3, background: '#997' } }),
    'a face': () => sharp(Buffer.from(FACE)),
  }

  test.each(Object.entries(REFUSED))('%s gets one sentence that helps', async (name, photo) => {
    const path = join(folder, `${name}.png`)
    await photo().png().toFile(path)
    const { exit, out, err } = await run(['inspect', path, '--film', FILM])
    expect([exit, out]).toEqual([2, ''])
    expect(err.trim()).toMatch(/^(The|This) [^.]*; [^.]*(take|give)[^.]*\.$/)
  })

  test('corners that are none are refused with what they should be', async () => {
    const few = await run(['inspect', PHOTO, '--film', FILM, '--corners', '1,2,3'])
    expect([few.exit, few.err]).toEqual([2, expect.stringMatching(/eight numbers/)])
    const line = await run(['inspect', PHOTO, '--film', FILM, '--corners', '0,0,1,1,2,2,9,0'])
    expect([line.exit, line.err]).toEqual([2, expect.stringMatching(/on one line/)])
  })
})

const FACE = `<svg xmlns="http://www.w3.org/2000/svg" width="900" height="1200">
  <rect width="900" height="1200" fill="#667"/><ellipse cx="450" cy="520" rx="230" ry="310" fill="#dba"/>
  <circle cx="360" cy="450" r="30" fill="#222"/><circle cx="540" cy="450" r="30" fill="#222"/>
  <path d="M340 680q110 80 220 0" stroke="#a44" stroke-width="24" fill="none"/></svg>`
