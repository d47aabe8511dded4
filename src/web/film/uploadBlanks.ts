import type { UploadQuestion } from '../../api/films.ts'
import { UPLOAD_WORDS } from './filmWords.ts'

/** What stands in the blanks, as it was written; empty is left open. */
export type UploadBlanks = Readonly<{
  resolutionDpi: string
  solidDensity: string
  as: 'transmission' | 'coverage'
}>

export const OPEN_BLANKS: UploadBlanks = { resolutionDpi: '', solidDensity: '', as: 'transmission' }

const LIMITS = {
  resolutionDpi: { low: 50, high: 6000 },
  solidDensity: { low: 0.3, high: 6 },
} as const

export type NumberBlank = keyof typeof LIMITS

/** What is wrong with a number in a blank, in a sentence; null for a good or an open one. */
export function wrongBlank(name: NumberBlank, written: string): string | null {
  if (written.trim() === '') return null
  const value = numberOf(written)
  const { low, high } = LIMITS[name]
  return value >= low && value <= high
    ? null
    : UPLOAD_WORDS.wrongNumber(UPLOAD_WORDS.labels[name], low, high, written)
}

/** The question of the upload; null while a blank is wrong. */
export function uploadQuestionOf(blanks: UploadBlanks): UploadQuestion | null {
  const { resolutionDpi, solidDensity } = blanks
  if (wrongBlank('resolutionDpi', resolutionDpi) ?? wrongBlank('solidDensity', solidDensity))
    return null
  return {
    ...(resolutionDpi.trim() === '' ? {} : { resolutionDpi: numberOf(resolutionDpi) }),
    ...(solidDensity.trim() === '' ? {} : { solidDensity: numberOf(solidDensity) }),
    ...(blanks.as === 'transmission' ? {} : { as: blanks.as }),
  }
}

/** Both a point and a comma stand before decimals. */
function numberOf(written: string): number {
  const plain = written.trim().replace(',', '.')
  return /^\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN
}
