import { doubtsAbout } from '../core/calibration/belief/doubts.ts'
import { type Evidence, outcomeBand } from '../core/calibration/belief/evidence.ts'
import type { Grading } from '../core/calibration/belief/grades.ts'
import { lu } from '../core/units/quantity.ts'
import type { CountsIn } from './lightRecords.ts'

type Counter = Readonly<{
  countsIn: CountsIn
  /** What the counter shows for one light unit. */
  counts: number
}>

/**
 * A reading in a line, its doses as on the counter: `Wedge at 60: step 6 solid, step 8 clear`.
 *
 * @param marks what the marks are called: a medium, or a film's name
 */
export function readingSays(
  evidence: Evidence,
  { marks, counts }: Pick<Counter, 'counts'> & Readonly<{ marks: string }>,
): string {
  const dose = (doseLu: number): string => doseWords(counts * doseLu)
  switch (evidence.kind) {
    case 'wedge': {
      const { doseLu, lastSolidStep, firstClearStep, wedge } = evidence
      const solid = lastSolidStep === 0 ? 'no step solid' : `step ${lastSolidStep} solid`
      if (firstClearStep === undefined) return `Wedge at ${dose(doseLu)}: ${solid}`
      const clear = firstClearStep > wedge.steps ? 'none clear' : `step ${firstClearStep} clear`
      return `Wedge at ${dose(doseLu)}: ${solid}, ${clear}`
    }
    case 'strip': {
      const rising = evidence.bands.toSorted((a, b) => a.doseLu - b.doseLu)
      const groups: { words: string; doses: string[] }[] = []
      for (const band of rising) {
        const words = gradingWords(band)
        const last = groups.at(-1)
        if (last?.words === words) last.doses.push(dose(band.doseLu))
        else groups.push({ words, doses: [dose(band.doseLu)] })
      }
      const said = groups.map(({ words, doses }) => `${words} at ${doses.join(', ')}`)
      return `Strip in ${marks}: ${said.join('; ')}`
    }
    case 'outcome':
      return capital(`${marks} at ${dose(evidence.doseLu)}: ${gradingWords(outcomeBand(evidence))}`)
  }
}

/** What is odd about a reading, in sentences with doses as on the counter. */
export function readingDoubts(
  evidence: Evidence,
  { countsIn, counts }: Counter,
): readonly string[] {
  const onCounter = (doseLu: number) => lu(Number(doseWords(counts * doseLu)))
  const shown: Evidence =
    evidence.kind === 'strip'
      ? {
          ...evidence,
          bands: evidence.bands.map((band) => ({ ...band, doseLu: onCounter(band.doseLu) })),
        }
      : { ...evidence, doseLu: onCounter(evidence.doseLu) }
  return doubtsAbout(shown).map((sentence) =>
    sentence.replace(/(\d) lu\b/g, (_, digit: string) => `${digit} ${countsIn}`),
  )
}

/** As it is said: whole from ten up, tenths below. */
export function doseWords(count: number): string {
  return count < 9.95 ? String(Number(count.toFixed(1))) : String(Math.round(count))
}

/** `good`; `ground soft, marks filling`. */
export function gradingWords(grading: Grading): string {
  if ('grade' in grading) return grading.grade
  if (grading.ground === 'washed off') return 'washed off'
  return `ground ${grading.ground}, marks ${grading.marks}`
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
