import type { Evidence } from './evidence.ts'
import { gradingParts } from './grades.ts'

/**
 * What cannot well be true in a reading, in sentences for whoever typed it; none where all is well.
 * Such a reading still counts for what it is worth: the slips of the pen are part of the reckoning.
 *
 * @param today the day it is, where known: what is dated later cannot have been read yet
 */
export function doubtsAbout(
  evidence: Evidence,
  { today }: Readonly<{ today?: number | undefined }> = {},
): readonly string[] {
  return [...dateDoubts(evidence, today), ...readingDoubts(evidence)]
}

function dateDoubts({ day }: Evidence, today: number | undefined): readonly string[] {
  if (day === undefined || today === undefined || Math.floor(day) <= Math.floor(today)) return []
  const days = Math.floor(day) - Math.floor(today)
  const ahead = days === 1 ? 'tomorrow' : `${days} days from now`
  return [`This reading is dated ${ahead}: put down the day on which the screen was exposed.`]
}

function readingDoubts(evidence: Evidence): readonly string[] {
  switch (evidence.kind) {
    case 'wedge': {
      const { lastSolidStep, firstClearStep } = evidence
      if (firstClearStep === undefined || firstClearStep > lastSolidStep) return []
      return [
        `Step ${firstClearStep} cannot be clear when step ${lastSolidStep} is still solid: ` +
          'read the wedge again, the clearest step is number 1.',
      ]
    }
    case 'strip':
      return stripDoubts(
        evidence.bands.map((band) => ({ doseLu: band.doseLu, ...gradingParts(band) })),
      )
    case 'outcome':
      return []
  }
}

type Rung = Readonly<{ doseLu: number }> & ReturnType<typeof gradingParts>

/** More light never washes off what less light held, and never opens what less light filled. */
function stripDoubts(bands: readonly Rung[]): readonly string[] {
  const rising = bands.toSorted((a, b) => a.doseLu - b.doseLu)
  const doubts: string[] = []
  for (let at = 1; at < rising.length; at++) {
    const [less, more] = [rising[at - 1], rising[at]]
    if (less === undefined || more === undefined || less.doseLu === more.doseLu) continue
    if (least(GROUND[less.ground]) > most(GROUND[more.ground])) {
      doubts.push(contradiction(less, { more, what: 'has the firmer ground' }))
    }
    if (least(MARKS[less.marks]) > most(MARKS[more.marks])) {
      doubts.push(contradiction(less, { more, what: 'is the more filled' }))
    }
  }
  return doubts
}

type Span = readonly [number, number]

/** How firm, at least and at most. */
const GROUND: Readonly<Record<Rung['ground'], Span>> = {
  'washed off': [0, 0],
  soft: [1, 1],
  sound: [2, 2],
  held: [1, 2],
}

/** How far filled, at least and at most. */
const MARKS: Readonly<Record<Rung['marks'], Span>> = {
  open: [0, 0],
  filling: [1, 1],
  filled: [2, 2],
  any: [0, 2],
}

const least = ([low]: Span): number => low
const most = ([, high]: Span): number => high

function contradiction(less: Rung, { more, what }: Readonly<{ more: Rung; what: string }>): string {
  return (
    `The band of ${less.doseLu} lu ${what}, though the band of ${more.doseLu} lu had more light: ` +
    'look at the two again, or strike out the one that was misread.'
  )
}
