import type { FilmForecast, Finding } from '../../api/films.ts'
import { doseText } from '../figures.ts'
import type { Units } from '../signs/Ruler.tsx'
import { FILM_WORDS } from './filmWords.ts'

export type Doses = Pick<FilmForecast, 'gelDoseLu' | 'holdDoseLu' | 'throughDoseLu'>

/** A dose that is looked at, under the doses of one setup. */
export type AtDose = Readonly<{
  doseLu: number
  doses: Doses
  /** From here up the ground is more likely to hold than not. */
  holdsFromLu: number
}>

/** What becomes of a mark at a dose, by the light that leaks through it. */
export function fateOf(
  { opensUpToLu }: Pick<Finding, 'opensUpToLu'>,
  { doseLu, doses }: Pick<AtDose, 'doseLu' | 'doses'>,
): 'opens' | 'veiled' | 'soft' | 'closed' {
  const surfaceLu = (doseLu * doses.gelDoseLu) / opensUpToLu
  if (surfaceLu <= doses.gelDoseLu) return 'opens'
  if (surfaceLu < doses.holdDoseLu) return 'veiled'
  return surfaceLu < doses.throughDoseLu ? 'soft' : 'closed'
}

/** What is told of a finding at a dose, and in bold what to do. */
export function findingSays(
  finding: Finding,
  at: AtDose,
): Readonly<{ says: string; act: string | null }> {
  const upTo = doseText(finding.opensUpToLu)
  const fate = fateOf(finding, at)
  if (fate === 'opens') return { says: FILM_WORDS.opens(upTo), act: null }
  const says = FILM_WORDS.fates[fate]
  return finding.opensUpToLu < at.holdsFromLu
    ? { says: `${says} ${FILM_WORDS.noDose}`, act: FILM_WORDS.goOver }
    : { says, act: FILM_WORDS.takeLess(upTo) }
}

type FilmMm = Readonly<{ widthMm: number; heightMm: number; pixelUm: number }>

/** Marks wider than this are no lines; pale ones of a pixel or two are the grain of one. */
const WIDEST_LINE_UM = 2000
const GRAIN_PX = 2.6
const GRAIN_DENSITY = 1

/** Where it is and what it is like: a name for the list. */
export function findingName(finding: Finding, film: FilmMm, units: Units): string {
  const row = FILM_WORDS.sides.rows[third(finding.yMm / film.heightMm)]
  const column = FILM_WORDS.sides.columns[third(finding.xMm / film.widthMm)]
  const place =
    row === 'middle' ? (column === 'middle' ? FILM_WORDS.sides.centre : column) : `${row} ${column}`
  const kind = kindOf(finding, film, units)
  return `${(place ?? '').slice(0, 1).toUpperCase()}${(place ?? '').slice(1)}, ${kind}`
}

function kindOf({ widthUm, density }: Finding, { pixelUm }: FilmMm, units: Units): string {
  if (widthUm > WIDEST_LINE_UM) return FILM_WORDS.tone
  if (widthUm >= GRAIN_PX * pixelUm) return FILM_WORDS.wide(lengthText(widthUm / 1000, units))
  return density < GRAIN_DENSITY ? FILM_WORDS.grain : FILM_WORDS.hairlines
}

function third(share: number): number {
  return Math.min(2, Math.max(0, Math.floor(3 * share)))
}

const MM_PER_INCH = 25.4

/** A length for people: hundredths where it is small. */
export function lengthText(mm: number, units: Units): string {
  if (units === 'imperial') {
    const inches = mm / MM_PER_INCH
    return `${Number(inches.toFixed(inches < 0.1 ? 3 : inches < 10 ? 2 : 1))} inch`
  }
  return `${Number(mm.toFixed(mm < 1 ? 2 : mm < 10 ? 1 : 0))} mm`
}

/** How much of a film's marks open at a dose, in words; not all while a finding is in doubt. */
export function shareSays(
  along: readonly number[],
  findings: readonly Finding[],
  doseLu: number,
): string {
  const open = along.filter((upTo) => upTo >= doseLu).length / Math.max(1, along.length)
  const { all, nearly, most, half, little, none } = FILM_WORDS.shares
  if (open === 1) return findings.some(({ opensUpToLu }) => opensUpToLu < doseLu) ? nearly : all
  if (open >= 0.8) return nearly
  if (open >= 0.6) return most
  if (open >= 0.4) return half
  return open > 0 ? little : none
}

/** The sentence after the share: what is the matter at this dose; empty where nothing is. */
export function troubleSays(findings: readonly Finding[], { doseLu, holdsFromLu }: AtDose): string {
  if (doseLu < holdsFromLu) return FILM_WORDS.groundWashes
  const doubtful = findings.filter(({ opensUpToLu }) => opensUpToLu < doseLu)
  const hopeless = doubtful.filter(({ opensUpToLu }) => opensUpToLu < holdsFromLu)
  if (hopeless.length > 0) return FILM_WORDS.passages(hopeless.length)
  return doubtful.length > 0 ? FILM_WORDS.narrower(doubtful.length) : ''
}

/** How far something is, in steps that are not read out too often. */
export function tens(share: number): string {
  return `${Math.floor(share * 10) * 10} %`
}
