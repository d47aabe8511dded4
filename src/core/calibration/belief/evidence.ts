import { BASE_DENSITY, DENSITY } from '../../film/density.ts'
import { DOSE } from '../../light/doseField.ts'
import type { Density, Lu, Um } from '../../units/quantity.ts'
import { expectIn, type Range } from '../../units/range.ts'
import { BANDS } from '../strip.ts'
import { FIRST_DENSITY, INCREMENT, STEP, WEDGE_STEPS, type Wedge } from '../wedge.ts'
import { expectGrading, type Grade, type Grading, type Ticks } from './grades.ts'

/**
 * Under what an exposure was made, or is to be made. Names tell the shop's things apart; a name
 * that is left out means the usual one, save for screen and film, where it means one of its own.
 */
export type Circumstances = Readonly<{
  unit?: string | undefined
  /** The bucket: emulsion and batch in one name. */
  emulsion?: string | undefined
  fabric?: string | undefined
  dyed?: boolean | undefined
  recipe?: string | undefined
  /** One coating of one screen. */
  screen?: string | undefined
  film?: string | undefined
  /** Base under which it lies; the shop's usual one where it is left out. */
  baseDensity?: Density | undefined
  /** The coat, where it is known to be another than the usual. */
  coat?: Readonly<{ thicknessUm: Um; anchorDepthUm: Um }> | undefined
  /** Whole days from any fixed day; undefined: nobody wrote it down. */
  day?: number | undefined
  lampHours?: number | undefined
  /** The day on which the unit's lamp took the place of another; left out: it was the first. */
  lampFitted?: number | undefined
}>

/** The marks by their medium, or by their own effective density where the film was read. */
export type Marks =
  | Readonly<{ medium: string }>
  | Readonly<{ density: Density; densitySd: Density; medium?: string | undefined }>

/** One exposed patch and how it came out. */
export type Band = Grading & Readonly<{ doseLu: Lu }>

/** A wedge exposed beside or without a film. */
export type WedgeEvidence = Circumstances &
  Readonly<{
    kind: 'wedge'
    doseLu: Lu
    wedge: Wedge
    /** 0: not even step 1 held. */
    lastSolidStep: number
    /** One more than the wedge has: none washed clear. */
    firstClearStep?: number | undefined
  }>

/** A test strip: several bands on one screen under one film. */
export type StripEvidence = Circumstances &
  Readonly<{ kind: 'strip'; marks: Marks; bands: readonly Band[] }>

/** A finished screen, told by its one dose; two ticks stand apart, for `marks` is what it shows. */
export type OutcomeEvidence = Circumstances &
  Readonly<{ kind: 'outcome'; marks: Marks; doseLu: Lu }> &
  (Readonly<{ grade: Grade }> | Readonly<{ ticks: Ticks }>)

/** Anything that teaches. */
export type Evidence = WedgeEvidence | StripEvidence | OutcomeEvidence

/** Days from any fixed day, thousands of years either way. */
export const DAY: Range = { name: 'day', low: -4_000_000, high: 4_000_000, unit: 'days' }
/** Hours on a lamp's own counter. */
export const LAMP_HOURS: Range = { name: 'lampHours', low: 0, high: 1_000_000, unit: 'h' }
/** How well the effective density of a film that was read is known. */
export const DENSITY_SD: Range = { name: 'densitySd', low: 0.005, high: 2, unit: 'D' }

/** @throws RangeError where a number of the evidence cannot be */
export function expectEvidence(evidence: Evidence): void {
  expectCircumstances(evidence)
  switch (evidence.kind) {
    case 'wedge': {
      const { doseLu, wedge, lastSolidStep, firstClearStep } = evidence
      expectIn(doseLu, DOSE)
      expectIn(wedge.steps, WEDGE_STEPS)
      expectIn(wedge.firstDensity, FIRST_DENSITY)
      expectIn(wedge.increment, INCREMENT)
      expectIn(lastSolidStep, { ...STEP, name: 'lastSolidStep', low: 0, high: wedge.steps })
      if (firstClearStep === undefined) return
      expectIn(firstClearStep, { ...STEP, name: 'firstClearStep', high: wedge.steps + 1 })
      return
    }
    case 'strip':
      expectMarks(evidence.marks)
      expectIn(evidence.bands.length, { ...BANDS, low: 1 })
      for (const band of evidence.bands) expectBand(band)
      return
    case 'outcome':
      expectMarks(evidence.marks)
      expectBand(outcomeBand(evidence))
  }
}

/** A finished screen as the one band that it is. */
export function outcomeBand(outcome: OutcomeEvidence): Band {
  const { doseLu } = outcome
  return 'grade' in outcome ? { doseLu, grade: outcome.grade } : { doseLu, ...outcome.ticks }
}

function expectBand(band: Band): void {
  expectIn(band.doseLu, DOSE)
  expectGrading(band)
}

/** @throws RangeError where a number of the circumstances cannot be */
export function expectCircumstances(circumstances: Circumstances): void {
  const { baseDensity, coat, day, lampHours, lampFitted } = circumstances
  if (baseDensity !== undefined) expectIn(baseDensity, BASE_DENSITY)
  if (day !== undefined) expectIn(day, DAY)
  if (lampHours !== undefined) expectIn(lampHours, LAMP_HOURS)
  if (lampFitted !== undefined) expectIn(lampFitted, { ...DAY, name: 'lampFitted' })
  if (coat !== undefined) {
    const { thicknessUm, anchorDepthUm } = coat
    expectIn(thicknessUm, { name: 'thicknessUm', low: 1, high: 1000, unit: 'um' })
    expectIn(anchorDepthUm, { name: 'anchorDepthUm', low: 0, high: thicknessUm, unit: 'um' })
  }
}

/** @throws RangeError where a density of the marks cannot be */
export function expectMarks(marks: Marks): void {
  if (!('density' in marks)) return
  expectIn(marks.density, DENSITY)
  expectIn(marks.densitySd, DENSITY_SD)
}

/**
 * A text by which the entries of one day are put in one order, whoever typed them in whichever:
 * wedges first, for they are the plainest, then strips, then outcomes.
 */
export function orderOf(evidence: Evidence): string {
  const place = { wedge: 0, strip: 1, outcome: 2 }[evidence.kind]
  return `${place} ${inOrder(evidence)}`
}

/** Its JSON with every key in the order of the alphabet. */
function inOrder(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((part) => inOrder(part)).join()}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? ''
  const entries = Object.entries(value).filter(([, part]) => part !== undefined)
  entries.sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${entries.map(([key, part]) => `${key}:${inOrder(part)}`).join()}}`
}
