import { createHash } from 'node:crypto'
import { type Kept, replay } from '../../core/calibration/belief/replay.ts'
import { MEDIA } from '../../core/film/media.ts'
import { density, lu } from '../../core/units/quantity.ts'

/**
 * A name for the way in which evidence is reckoned with, by what it makes of a few readings: after
 * a change of the formulas it is another one, and evenings kept before are not looked at.
 */
export function wayOfReckoning(): string {
  const wedge = { steps: 21, firstDensity: density(0.05), increment: density(0.15) }
  const on = (day: number, unit: string, lampHours: number) => {
    return { emulsion: 'e', fabric: 'f', recipe: 'r', screen: 's', unit, day, lampHours }
  }
  const bands = [
    { doseLu: lu(20), grade: 'soft' },
    { doseLu: lu(40), ground: 'sound', marks: 'open' },
    { doseLu: lu(80), grade: 'filling' },
  ] as const
  const read = { density: density(0.9), densitySd: density(0.1) }
  const evidence: readonly Kept[] = [
    {
      ...on(1, 'a', 90),
      kind: 'wedge',
      doseLu: lu(60),
      wedge,
      lastSolidStep: 6,
      firstClearStep: 8,
    },
    { ...on(9, 'b', 7), kind: 'strip', marks: { medium: 'soft pencil' }, bands },
    { ...on(40, 'a', 2), dyed: true, kind: 'outcome', marks: read, doseLu: lu(42), grade: 'good' },
    ...MEDIA.map(({ name }, at): Kept => {
      const marks = { medium: name }
      return { ...on(41 + at, 'a', 3), kind: 'outcome', marks, doseLu: lu(60), grade: 'good' }
    }),
  ]
  const { belief } = replay(evidence, {
    shop: { usualBaseDensity: density(0.15), secondsUnits: ['b'] },
  })
  const { entries, gaussian } = belief
  const made = JSON.stringify([entries, [...gaussian.mean], [...gaussian.cov]])
  return createHash('sha256').update(made).digest('base64url')
}
