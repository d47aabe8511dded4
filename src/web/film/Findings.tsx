import type { ReactNode } from 'react'
import type { Finding } from '../../api/films.ts'
import type { Units } from '../signs/Ruler.tsx'
import { WaxRing } from '../signs/WaxRing.tsx'
import { FILM_WORDS } from './filmWords.ts'
import { type AtDose, findingName, findingSays } from './findingSays.ts'

export type FindingsProps = Readonly<{
  findings: readonly Finding[]
  film: Readonly<{ widthMm: number; heightMm: number; pixelUm: number }>
  at: AtDose
  units: Units
  focused: number | null
  onFocus: (number: number | null) => void
}>

/** Where to look, worst first, each with what to do; an entry that is looked at moves the loupe. */
export function Findings(props: FindingsProps): ReactNode {
  const { findings, film, at, units, focused, onFocus } = props
  return (
    <ol className="findings" aria-label={FILM_WORDS.listLabel}>
      {findings.map((finding) => {
        const { says, act } = findingSays(finding, at)
        return (
          <li
            key={finding.number}
            className={finding.number === focused ? 'finding finding-focused' : 'finding'}
          >
            <button
              type="button"
              aria-pressed={finding.number === focused}
              onFocus={() => onFocus(finding.number)}
              onClick={() => onFocus(finding.number)}
              onMouseEnter={() => onFocus(finding.number)}
            >
              <WaxRing number={finding.number} />
              <span className="finding-words">
                <strong>{findingName(finding, film, units)}</strong>
                <span>
                  {says}
                  {act !== null && <b>{` ${act}`}</b>}
                </span>
              </span>
            </button>
          </li>
        )
      })}
    </ol>
  )
}
