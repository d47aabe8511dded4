import type { Run } from './lines.ts'
import { counted, numberWords } from './numberWords.ts'
import { counterSettings } from './settableDoses.ts'

export type CountsIn = 'light units' | 'seconds'

/** `62 light units`, `1 second`. */
export function countOf(value: number, countsIn: CountsIn): string {
  const units = counted(value) === '1' ? countsIn.slice(0, -1) : countsIn
  return `${counted(value)} ${units}`
}

const PARTS: readonly (readonly [number, string])[] = [
  [1 / 20, 'a twentieth less'],
  [1 / 12, 'a twelfth less'],
  [1 / 10, 'a tenth less'],
  [1 / 8, 'an eighth less'],
  [1 / 7, 'a seventh less'],
  [1 / 6, 'a sixth less'],
  [1 / 5, 'a fifth less'],
  [1 / 4, 'a quarter less'],
  [1 / 3, 'a third less'],
  [1 / 2, 'half the one before'],
  [2 / 3, 'a third of the one before'],
]

/** Doses that are set in whole counts are nowhere nearer to equal ratios than this. */
const UNEVEN = 0.04

/** `Six bands, uncovered one after another: 62 down to 26 light units, each a sixth less.` */
export function dosesSentence(doses: readonly number[], countsIn: CountsIn): string {
  const [first = 0, last = 0] = [doses[0], doses.at(-1)]
  const many = numberWords(doses.length)
  const head = `${capital(many)} bands, uncovered one after another: ${counted(first)} down to `
  const less = 1 - (last / first) ** (1 / (doses.length - 1))
  const even = doses.every((dose, at) => {
    const before = doses[at - 1]
    return before === undefined || Math.abs(1 - dose / before - less) < UNEVEN
  })
  const near = PARTS.reduce((best, part) =>
    Math.abs(Math.log(part[0] / less)) < Math.abs(Math.log(best[0] / less)) ? part : best,
  )
  const told = even && Math.abs(Math.log(near[0] / less)) < 0.15
  return `${head}${countOf(last, countsIn)}${told ? `, each ${near[1]}` : ''}.`
}

/** Words for bands as they stand on the film; long ones are left in figures where many must fit. */
export function bandName(dose: number): string {
  const figures = counted(dose)
  return dose < 100 && !figures.includes('.') ? numberWords(dose) : figures
}

/** One line for each light that is given, the largest dose's first. */
export function stepLines(
  doses: readonly number[],
  countsIn: CountsIn,
): readonly (readonly Run[])[] {
  return counterSettings(doses).map((setting, at) => {
    const name = bandName(doses[at] ?? 0)
    if (at === 0) {
      const [number = '', ...units] = countOf(setting, countsIn).split(' ')
      return [
        ['plain', 'Cover all bands but the first. Give '],
        ['bold', number],
        ['plain', ` ${units.join(' ')}.`],
      ]
    }
    const which =
      at === 1 ? `${name} as well` : at === doses.length - 1 ? `${name}, the last` : name
    return [
      ['plain', `Uncover ${which}. Give `],
      ['bold', counted(setting)],
      ['plain', ' more.'],
    ]
  })
}

export const LAY_THE_CARD = 'Lay the card on the points at the edges.'

export function setAfresh(total: number): readonly Run[] {
  return [
    ['plain', 'Set the counter afresh each time; in all it gave '],
    ['bold', counted(total)],
    ['plain', '.'],
  ]
}

/** What is told afterwards, and for a unit that counts seconds what they are worth. */
export function washOut(countsIn: CountsIn): string {
  const told =
    'Wash out as always. Then tell Tests two bands: the smallest dose whose ground holds, and the largest whose thinnest reeds are open.'
  return countsIn === 'seconds' ? `Have the lamp hot before the first. ${told}` : told
}

export const CAUTION =
  'Shut the lid before each light, and do not look at the lamp. The unit’s manual comes first.'

function capital(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`
}
