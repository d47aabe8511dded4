import type { PhotoPoint, PhotoStrip, PhotoTest } from '../../../api/photos.ts'
import type { Tests } from '../../../api/tests.ts'
import { doseText } from '../../figures.ts'
import type { Corners, PhotoSize } from '../../photo/corners.ts'
import { type BandDraft, type Draft, NO_GRADE } from '../read/draft.ts'
import { DOSE, numberWritten, valueOf } from '../written.ts'
import { BY_PHOTO_WORDS } from './byPhotoWords.ts'

/** Under this chance a grade is not filled in: somebody has to look. */
const LEAST_CHANCE = 0.5
const NOTE_LONGEST = 2000

/** What a photo told, as lines for people; those that it leaves open say so. */
export function proposalSays(test: PhotoTest): readonly string[] {
  const { band, between, inTen, orElse, step, unsure } = BY_PHOTO_WORDS
  if (test.kind === 'wedge') {
    const { lastSolid, firstClear } = test
    return [
      step('solid', lastSolid.step, inTen(lastSolid.chance)) +
        between(lastSolid.low, lastSolid.high),
      step('clear', firstClear.step, inTen(firstClear.chance)) +
        between(firstClear.low, firstClear.high),
    ]
  }
  // the smallest dose first, as the fields below stand
  const rising = test.bands.toSorted((one, other) => one.doseLu - other.doseLu)
  return rising.map(({ doseLu, grade, chance, next }) => {
    const dose = doseText(doseLu)
    if (chance < LEAST_CHANCE) return unsure(dose, grade, next.grade)
    return band(dose, grade, inTen(chance)) + (next.chance >= 0.15 ? orElse(next.grade) : '')
  })
}

/** What it fills into the fields; the note says that it came by photo, and what that said. */
export function proposed(test: PhotoTest, draft: Draft): Partial<Draft> {
  const says = proposalSays(test).join('; ')
  const note = [draft.note.replace(FORMER_NOTE, '').trim(), BY_PHOTO_WORDS.note(`${says}.`)]
    .filter((part) => part !== '')
    .join(' ')
    .slice(0, NOTE_LONGEST)
  if (test.kind === 'wedge') {
    const { lastSolid, firstClear } = test
    return {
      note,
      lastSolid: String(lastSolid.step),
      firstClear: String(firstClear.step),
    }
  }
  return {
    note,
    by: 'picture',
    bands: draft.bands.map((band): BandDraft => {
      const told = test.bands.find(({ doseLu }) => doseLu === doseOf(band.dose))
      if (told === undefined) return band
      const grade = told.chance < LEAST_CHANCE ? '' : told.grade
      return { ...NO_GRADE, dose: band.dose, grade }
    }),
  }
}

/** A note that an earlier photo left is taken out. */
const FORMER_NOTE = new RegExp(`${BY_PHOTO_WORDS.note('')}.*$`)

/** The strip that is asked of a photo; null while its doses are not all there. */
export function stripAsked(
  { bands }: Pick<Draft, 'bands'>,
  {
    paper,
    marks,
    countsIn,
  }: Pick<PhotoStrip, 'paper' | 'marks'> & Readonly<{ countsIn: Tests['countsIn'] }>,
): PhotoStrip | null {
  const bandCounts = bands.flatMap(({ dose }) => doseOf(dose) ?? [])
  const isWhole = bandCounts.length === bands.length && bands.length >= 3 && bands.length <= 12
  const isUnlike = new Set(bandCounts).size === bandCounts.length
  return isWhole && isUnlike ? { bandCounts, countsIn, paper, marks } : null
}

function doseOf(written: string): number | null {
  return valueOf(numberWritten(written, DOSE))
}

/** Where the corners of a wedge stand before anybody moved them: a long, low box. */
export function firstWedgeCorners({ widthPx, heightPx }: PhotoSize): Corners {
  const isWide = widthPx >= heightPx
  const [x, y] = isWide ? [0.1, 0.42] : [0.42, 0.1]
  const at = (u: number, v: number): PhotoPoint => ({
    x: u * widthPx,
    y: v * heightPx,
  })
  return [at(x, y), at(1 - x, y), at(1 - x, 1 - y), at(x, 1 - y)]
}
