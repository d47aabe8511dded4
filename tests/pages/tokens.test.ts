import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'

const FILE = fileURLToPath(new URL('../../src/web/tokens.css', import.meta.url))

/** The colours of one block, by name. */
async function coloursOf(selector: string): Promise<ReadonlyMap<string, string>> {
  const css = await readFile(FILE, 'utf8')
  const block = css.split(`\n${selector} {`)[1]?.split('\n}')[0] ?? ''
  return new Map(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name = '', hex = '']) => [
      name,
      hex,
    ]),
  )
}

const channels = (hex: string): readonly number[] =>
  [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16))

/** Relative luminance as WCAG 2.2 defines it. */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = channels(hex).map((value) => {
    const part = value / 255
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a)
  return (light + 0.05) / (dark + 0.05)
}

test('the formula gives what the standard says: white on black is 21 to 1', () => {
  expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 9)
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2)
})

describe.each([
  ['paper', ':root'],
  ['night', '[data-scheme="night"]'],
])('oracle wcag22: %s', (_, selector) => {
  test.each([
    ['ink', 7],
    ['soft', 4.5],
    ['cut', 4.5],
    ['emulsion', 4.5],
    ['rule', 3],
  ] as const)('%s reaches %s to 1 on film and on sheet', async (name, least) => {
    const colours = await coloursOf(selector)
    for (const ground of ['film', 'sheet']) {
      expect(contrast(colours.get(name) ?? '', colours.get(ground) ?? '')).toBeGreaterThanOrEqual(
        least,
      )
    }
  })

  test('words on mesh and on tape can be read', async () => {
    const colours = new Map([...(await coloursOf(':root')), ...(await coloursOf(selector))])
    expect(
      contrast(colours.get('on-mesh') ?? '', colours.get('mesh') ?? ''),
    ).toBeGreaterThanOrEqual(7)
    expect(
      contrast(colours.get('on-tape') ?? '', colours.get('tape') ?? ''),
    ).toBeGreaterThanOrEqual(4.5)
  })
})

test('beside unexposed emulsion there is no blue, and no more green than half the red', async () => {
  const bench = await coloursOf('[data-scheme="bench"]')
  const paper = await coloursOf(':root')
  expect([...paper.keys()].filter((name) => !bench.has(name))).toEqual([])
  for (const [name, hex] of bench) {
    const [red = 0, green = 0, blue = 0] = channels(hex)
    expect([name, blue]).toEqual([name, 0])
    expect([name, green <= 112 && green <= red / 2]).toEqual([name, true])
  }
})

test('colours stand in the tokens alone', async () => {
  const folder = fileURLToPath(new URL('../../src/web', import.meta.url))
  const { readdir } = await import('node:fs/promises')
  const sheets = (await readdir(folder, { recursive: true })).filter(
    (name) => name.endsWith('.css') && !name.endsWith('tokens.css'),
  )
  expect(sheets.length).toBeGreaterThan(5)
  for (const name of sheets) {
    const css = await readFile(`${folder}/${name}`, 'utf8')
    expect([name, css.match(/#[0-9a-f]{3,8}\b|\brgba?\(|\bhsla?\(/gi)]).toEqual([name, null])
  }
})
