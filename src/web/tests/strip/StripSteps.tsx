import type { ReactNode } from 'react'
import type { TestDesign } from '../../../api/tests.ts'
import { doseText } from '../../figures.ts'
import { useUnits } from '../../shop.tsx'
import { LIGHT_WORDS } from '../../words.ts'
import { rulerText } from '../lengths.ts'
import { STRIP_WORDS } from './stripWords.ts'

/** What to uncover, where the card lies, and what to give, one step after another. */
export function StripSteps({
  design,
  coverMm,
}: Readonly<{
  design: TestDesign
  /** From the film's top, after each uncovering. */
  coverMm: readonly number[]
}>): ReactNode {
  const units = useUnits()
  const unit = LIGHT_WORDS.units[design.countsIn]
  const falling = design.bands.toSorted((a, b) => b.doseLu - a.doseLu)
  const last = falling.length - 1
  const words = (at: number, band: string): string => {
    if (at === 0) return STRIP_WORDS.stepFirst(band)
    return at === last ? STRIP_WORDS.stepLast(band) : STRIP_WORDS.step(band)
  }
  const edge = (at: number): string => {
    const mm = coverMm[at]
    return at === last || mm === undefined
      ? STRIP_WORDS.edgeOff
      : STRIP_WORDS.edge(rulerText(mm, units))
  }
  return (
    <section className="strip-steps">
      <h2>{STRIP_WORDS.steps}</h2>
      {design.sentences.map((sentence) => (
        <p key={sentence} className="how">
          {sentence}
        </p>
      ))}
      {design.cautions.length > 0 && (
        <div className="cautions">
          {design.cautions.map((caution) => (
            <p key={caution}>{caution}</p>
          ))}
        </div>
      )}
      <ol>
        {falling.map(({ number, doseLu }, at) => (
          <li key={number} className="strip-step">
            <p className="strip-cover">
              <strong>{words(at, `${number} (${doseText(doseLu)})`)}</strong> {edge(at)}
            </p>
            <p className="strip-give">
              {STRIP_WORDS.give} <strong>{doseText(design.incrementsLu[at] ?? 0)}</strong>{' '}
              {at === 0 ? STRIP_WORDS.first(unit) : STRIP_WORDS.more(unit)}
            </p>
          </li>
        ))}
      </ol>
      <p className="strip-whole">
        {STRIP_WORDS.inAll(doseText(falling[0]?.doseLu ?? 0), unit)} {STRIP_WORDS.washed}
      </p>
    </section>
  )
}
