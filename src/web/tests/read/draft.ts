import type { Outcome } from '../../../api/shop.ts'
import type { NewReading } from '../../../api/tests.ts'
import { onTold } from '../days.ts'
import { saidOnly } from '../setUp.ts'
import { NO_WEDGE, stepsOf, type WedgeDraft, wedgeOf, wrongWedge } from '../wedgeDraft.ts'
import { DOSE, numberWritten, valueOf } from '../written.ts'
import { READ_WORDS } from './readWords.ts'

/** What can be told: a wedge, a strip, a finished screen. */
export type Kind = NewReading['kind']
type Grading = Extract<NewReading, { kind: 'outcome' }>['is']
type Ticks = Extract<Grading, { ground: unknown }>

/** How something came out, as far as it is told: by one word or by two. */
export type GradeDraft = Readonly<{
  grade: Outcome | ''
  ground: Ticks['ground'] | ''
  marks: Ticks['marks'] | ''
}>
export type BandDraft = GradeDraft & Readonly<{ dose: string }>

/** Everything somebody may have entered; texts as they were typed, empty where nothing was. */
export type Draft = WedgeDraft &
  Readonly<{
    unit: string
    screen: string
    fabric: string
    batch: string
    base: string
    medium: string
    /** How a lamp was lit that counts nothing but seconds. */
    from: 'cold' | 'hot'
    /** Where it lay on the glass; null: in the middle, or nobody says. */
    place: Readonly<{ xMm: number; yMm: number }> | null
    on: string
    note: string
    dose: string
    lastSolid: string
    firstClear: string
    by: 'picture' | 'ticks'
    is: GradeDraft
    bands: readonly BandDraft[]
  }>

export const NO_GRADE: GradeDraft = { grade: '', ground: '', marks: '' }
export const EMPTY: Draft = {
  unit: '',
  screen: '',
  fabric: '',
  batch: '',
  base: '',
  medium: '',
  from: 'hot',
  place: null,
  on: '',
  note: '',
  dose: '',
  lastSolid: '',
  firstClear: '',
  ...NO_WEDGE,
  by: 'picture',
  is: NO_GRADE,
  bands: [
    { ...NO_GRADE, dose: '' },
    { ...NO_GRADE, dose: '' },
  ],
}

/** A field of the draft, for the sentence beside it. */
export type Field = string
export type Wrong = Readonly<Record<Field, string>>

/** The reading as it goes out, or what is wrong with each field. */
export function readingOf(
  draft: Draft,
  kind: Kind,
): Readonly<{ kind: 'reading'; reading: NewReading }> | Readonly<{ kind: 'wrong'; wrong: Wrong }> {
  const wrong = wrongIn(draft, kind)
  if (Object.keys(wrong).length > 0) return { kind: 'wrong', wrong }
  const { unit, screen, fabric, batch, on, note } = draft
  const { place } = draft
  const where = {
    ...saidOnly({
      unit,
      ...(screen === '' ? { fabric, batch } : { screen }),
      base: kind === 'wedge' ? '' : draft.base,
      note: note.trim(),
    }),
    ...onTold(on),
    ...(draft.from === 'cold' ? { from: draft.from } : {}),
    ...(place === null ? {} : { place }),
  }
  const doseLu = doseOf(draft.dose)
  switch (kind) {
    case 'wedge': {
      const firstClearStep = wholeOf(draft.firstClear)
      const wedge = wedgeOf(draft)
      return {
        kind: 'reading',
        reading: {
          ...where,
          kind,
          doseLu,
          lastSolidStep: wholeOf(draft.lastSolid) ?? 0,
          ...(firstClearStep === null ? {} : { firstClearStep }),
          ...(wedge === null ? {} : { wedge }),
        },
      }
    }
    case 'outcome':
      return {
        kind: 'reading',
        reading: {
          ...where,
          kind,
          medium: draft.medium,
          doseLu,
          is: gradingOf(draft.is, draft.by),
        },
      }
    case 'strip':
      return {
        kind: 'reading',
        reading: {
          ...where,
          kind,
          medium: draft.medium,
          bands: bandsTold(draft).map((band) => ({
            doseLu: doseOf(band.dose),
            is: gradingOf(band, draft.by),
          })),
        },
      }
  }
}

/** What is wrong or missing, field by field; nothing when it can be told. */
export function wrongIn(draft: Draft, kind: Kind): Wrong {
  switch (kind) {
    case 'wedge':
      return { ...wrongDose('doseLu', draft.dose), ...wrongSteps(draft), ...wrongWedge(draft) }
    case 'outcome':
      return {
        ...wrongMedium(draft),
        ...wrongDose('doseLu', draft.dose),
        ...(isGraded(draft.is, draft.by) ? {} : { is: READ_WORDS.wrong.grade }),
      }
    case 'strip':
      return { ...wrongMedium(draft), ...wrongBands(draft) }
  }
}

/** Bands with nothing in them are not told. */
function bandsTold({ bands, by }: Draft): readonly BandDraft[] {
  return bands.filter((band) => band.dose.trim() !== '' || isGraded(band, by))
}

function wrongBands(draft: Draft): Wrong {
  if (bandsTold(draft).length < 2) return { bands: READ_WORDS.wrong.bands }
  const told = new Set(bandsTold(draft))
  return Object.assign(
    {},
    ...draft.bands.map((band, at) =>
      told.has(band)
        ? {
            ...wrongDose(`bands.${at}.doseLu`, band.dose),
            ...(isGraded(band, draft.by) ? {} : { [`bands.${at}.is`]: READ_WORDS.wrong.grade }),
          }
        : {},
    ),
  ) as Wrong
}

function wrongDose(field: Field, dose: string): Wrong {
  return numberWritten(dose, DOSE).kind === 'number'
    ? {}
    : { [field]: READ_WORDS.wrong.dose(dose.trim()) }
}

function wrongMedium({ medium }: Draft): Wrong {
  return medium === '' ? { medium: READ_WORDS.wrong.medium } : {}
}

function wrongSteps(draft: Draft): Wrong {
  const { lastSolid, firstClear } = draft
  const steps = stepsOf(draft)
  const solid = numberWritten(lastSolid, { low: 0, high: steps, whole: true })
  const clear = numberWritten(firstClear, { low: 1, high: steps + 1, whole: true })
  const ofStep = (text: string): string => READ_WORDS.wrong.step(text.trim(), steps)
  return {
    ...(solid.kind === 'nothing' ? { lastSolidStep: READ_WORDS.wrong.lastSolid } : {}),
    ...(solid.kind === 'wrong' ? { lastSolidStep: ofStep(lastSolid) } : {}),
    ...(clear.kind === 'wrong' ? { firstClearStep: ofStep(firstClear) } : {}),
    ...(solid.kind === 'number' && clear.kind === 'number' && clear.value <= solid.value
      ? { firstClearStep: READ_WORDS.wrong.order }
      : {}),
  }
}

function isGraded({ grade, ground, marks }: GradeDraft, by: Draft['by']): boolean {
  return by === 'picture' ? grade !== '' : ground !== '' && marks !== ''
}

/** @throws RangeError unless it is graded */
function gradingOf({ grade, ground, marks }: GradeDraft, by: Draft['by']): Grading {
  if (by === 'picture' && grade !== '') return { grade }
  if (ground === '' || marks === '') throw new RangeError('gradingOf: expected a grade, got none')
  return { ground, marks }
}

function doseOf(text: string): number {
  return valueOf(numberWritten(text, DOSE)) ?? 0
}

function wholeOf(text: string): number | null {
  return valueOf(numberWritten(text, { low: 0, high: 100, whole: true }))
}
