import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { gradeFilm } from '../demo/gradeFilm.ts'
import { type GradePicture, gradeDoses, gradePicture, type PicturedGrade } from './gradePicture.ts'
import { DEFAULT_SETUP } from './setup.ts'
import { type PicturedSign, signPicture } from './signPicture.ts'

const film = gradeFilm()
const doses = gradeDoses(DEFAULT_SETUP, { pale: 10 ** -0.85, middling: 10 ** -1.4 })
const pictures = new Map<PicturedGrade, GradePicture>()
for (const [grade, doseLu] of Object.entries(doses)) {
  pictures.set(grade as PicturedGrade, await gradePicture(film, DEFAULT_SETUP, { doseLu }))
}

type Colour = readonly [number, number, number]

function colourAt(grade: PicturedGrade, at: Readonly<{ xMm: number; yMm: number }>): Colour {
  const { rgb, widthPx } = pictures.get(grade) ?? { rgb: [], widthPx: 0 }
  const px = (mm: number): number => Math.floor((1000 * mm) / film.pixelUm)
  const from = 3 * (px(at.yMm) * widthPx + px(at.xMm))
  return [rgb[from] ?? 0, rgb[from + 1] ?? 0, rgb[from + 2] ?? 0]
}

/** Bare mesh is warm, emulsion is green: more red than green, or less. */
function openShare(grade: PicturedGrade): number {
  const { rgb = new Uint8Array(0) } = pictures.get(grade) ?? {}
  let open = 0
  for (let at = 0; at < rgb.length; at += 3) if ((rgb[at] ?? 0) > (rgb[at + 1] ?? 0)) open += 1
  return open / (rgb.length / 3)
}

const GROUND = { xMm: 0.5, yMm: 0.5 }
const SOLID = { xMm: 9, yMm: 1.7 }

describe('what a grade looks like', () => {
  test('nothing stays where the ground washed off', () => {
    expect(openShare('washed off')).toBe(1)
  })

  test('oracle jacobs1992: ground cured to 37 ln(H/6) of 80 um is so far from slime to hard', () => {
    for (const grade of ['soft', 'good'] as const) {
      const share = (37 * Math.log(doses[grade] / 6)) / 80
      // green of slime 134, of what is hard through 80
      near(colourAt(grade, GROUND)[1], 134 + (80 - 134) * share, {
        within: 1,
        because: 'colours are whole numbers; the halo of a mark far away is nothing',
      })
    }
  })

  test('strong ink stays open from soft to filling', () => {
    for (const grade of ['soft', 'good', 'filling'] as const) {
      const [red, green] = colourAt(grade, SOLID)
      expect(red).toBeGreaterThan(green)
    }
  })

  test('marks shut as the dose rises, a few when filling, most when filled', () => {
    const [soft, good, filling, filled] = (['soft', 'good', 'filling', 'filled'] as const).map(
      openShare,
    ) as [number, number, number, number]
    expect(soft).toBeGreaterThan(good)
    expect(filling).toBeLessThan(0.99 * good)
    expect(filling).toBeGreaterThan(0.6 * good)
    expect(filled).toBeLessThan(0.6 * good)
  })

  test('the doses rise in the order of the grades', () => {
    const inOrder = Object.values(doses)
    expect(inOrder).toEqual(inOrder.toSorted((a, b) => a - b))
  })
})

describe('what a sign looks like', () => {
  const leaks = { pale: 10 ** -0.85, middling: 10 ** -1.4 }
  const drawn = (sign: PicturedSign): Promise<GradePicture> =>
    signPicture(film, DEFAULT_SETUP, { sign, leaks })
  const openOf = ({ rgb }: GradePicture, from: number, to: number, widthPx: number): number => {
    let [open, all] = [0, 0]
    for (let at = 0; at < rgb.length; at += 3) {
      const share = ((at / 3) % widthPx) / widthPx
      if (share < from || share >= to) continue
      all += 1
      if ((rgb[at] ?? 0) > (rgb[at + 1] ?? 0)) open += 1
    }
    return open / all
  }

  test('nothing opens: not a pixel does; one side weak: its ground went, the other’s stayed', async () => {
    const shut = await drawn('nothing opens')
    expect(openOf(shut, 0, 1, shut.widthPx)).toBe(0)
    const weak = await drawn('one side weak')
    expect(openOf(weak, 0, 0.05, weak.widthPx)).toBe(1)
    expect(openOf(weak, 0.95, 1, weak.widthPx)).toBeLessThan(0.5)
  })

  test('mirrored twice is as it was, and what lies loose is softer than what lies close', async () => {
    const mirrored = await drawn('mirrored')
    const good = pictures.get('good')
    const { widthPx } = mirrored
    const row = (picture: GradePicture | undefined): readonly number[] => [
      ...(picture?.rgb.subarray(0, 3 * widthPx) ?? []),
    ]
    const back = Array.from({ length: widthPx }, (_, at) =>
      row(mirrored).slice(3 * (widthPx - 1 - at), 3 * (widthPx - at)),
    ).flat()
    expect(back).toEqual(row(good))
    const loose = await drawn('soft edges')
    expect(openOf(loose, 0, 1, widthPx)).toBeLessThan(openShare('good'))
  })
})
