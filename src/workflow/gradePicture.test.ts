import { describe, expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { gradeFilm } from '../demo/gradeFilm.ts'
import { type GradePicture, gradeDoses, gradePicture, type PicturedGrade } from './gradePicture.ts'
import { DEFAULT_SETUP } from './setup.ts'

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
