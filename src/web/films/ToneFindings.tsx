import { type ReactNode, useId, useState } from 'react'
import type { Mode } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { WaxRing } from '../signs/WaxRing.tsx'
import { FILMS_WORDS, percentText } from './filmsWords.ts'
import { MOST_RINGS } from './LightTable.tsx'
import { inksOf, withInkChanged } from './planFile.ts'
import type { Preview } from './previewAsk.ts'
import { PRINTS_WORDS } from './printsWords.ts'

type ToneFindingsProps = Readonly<{
  preview: Preview
  focused: number | null
  onFocus: (at: number) => void
}>

/** Tones that the fabric cannot hold. */
export function ToneFindings({
  preview,
  focused,
  isOwn,
  onFocus,
}: ToneFindingsProps & Readonly<{ isOwn: boolean }>): ReactNode {
  const { findings, plates } = preview
  const units = useUnits()
  const held = heldTones(preview)
  const said = findings.flatMap((finding, at) => {
    const words = wordsOf(finding, { held, isOwn, name: plates[finding.plate]?.name ?? '', units })
    return words === null ? [] : [{ ...words, ...finding, at }]
  })
  const [isAll, setAll] = useState(false)
  const id = useId()
  if (said.length === 0) return null
  const more = said.length - MOST_RINGS
  return (
    <>
      <ol id={id} className="findings" aria-label={FILMS_WORDS.findings}>
        {(isAll ? said : said.slice(0, MOST_RINGS)).map(({ plate, kind, says, doing, at }) => (
          <li
            key={`${plate} ${kind}`}
            className={at === focused ? 'finding finding-focused' : 'finding'}
          >
            <button
              type="button"
              aria-pressed={at === focused}
              onFocus={() => onFocus(at)}
              onClick={() => onFocus(at)}
            >
              <WaxRing number={at + 1} />
              <span className="finding-words">
                <span>
                  {says}
                  <b>{doing}</b>
                </span>
              </span>
            </button>
          </li>
        ))}
      </ol>
      {more > 0 && (
        <p className="findings-more">
          <SecondAct expanded={isAll} controls={id} onPress={() => setAll(!isAll)}>
            {isAll ? FILMS_WORDS.fewerFindings : FILMS_WORDS.moreFindings(more)}
          </SecondAct>
        </p>
      )}
    </>
  )
}

/** What a finding says and what to do; null where the fabric holds no tone at all. */
function wordsOf(
  finding: Preview['findings'][number],
  {
    held,
    isOwn,
    name,
    units,
  }: Readonly<{
    held: Held | null
    isOwn: boolean
    name: string
    units: ReturnType<typeof useUnits>
  }>,
): Readonly<{ says: string; doing: string }> | null {
  const share = percentText(finding.share)
  if (finding.kind === 'heavy') {
    const [most, limit] = [percentText(finding.most), percentText(finding.limit)]
    const says = PRINTS_WORDS.heavy(most, share, limit)
    return isOwn
      ? { says: says + PRINTS_WORDS.heavyOwn, doing: '' }
      : { says, doing: PRINTS_WORDS.heavyAct(limit) }
  }
  if (held === null) return null
  const { kind } = finding
  const size = lengthText((kind === 'fills' ? held.dotUm : held.islandUm) / 1000, units)
  const [edge, words] =
    kind === 'fills' ? [held.least, FILMS_WORDS.begin] : [held.most, FILMS_WORDS.end]
  return { says: FILMS_WORDS[kind](name, size, share), doing: words(percentText(edge)) }
}

/** What is to be done about them: about the one that is looked at, and about all. */
export function ToneActs({
  preview,
  file,
  isDotted,
  mode,
  focused,
  onPlan,
}: Omit<ToneFindingsProps, 'onFocus'> &
  Readonly<{
    file: PlanFile
    isDotted: boolean
    mode: Mode
    onPlan: (file: PlanFile) => void
  }>): ReactNode {
  const { findings, plates } = preview
  const held = heldTones(preview)
  const one = findings[focused ?? 0]
  if (one === undefined) return null
  if (one.kind === 'heavy') {
    const { limit } = one
    const keepTo = mode === 'process' ? PRINTS_WORDS.keepTo : PRINTS_WORDS.keepChosenTo
    const { limits } = file
    const kept = limits !== null && typeof limits === 'object' ? limits : {}
    return mode === 'process' || mode === 'spot' ? (
      <SecondAct onPress={() => onPlan({ ...file, limits: { ...kept, coverage: limit } })}>
        {keepTo(percentText(limit))}
      </SecondAct>
    ) : null
  }
  if (held === null) return null
  const first = plates[0]?.isUnderbase === true ? 1 : 0
  const { plate, kind } = one
  const name = plates[plate]?.name ?? ''
  const keep = (ink: number, change: Partial<Held>): PlanFile => {
    const { least, most } = { least: 0, most: 1, ...inksOf(file)[ink]?.tones, ...change }
    return withInkChanged(file, ink, { tones: { least, most } })
  }
  const { least, most } = held
  const change = kind === 'fills' ? { least } : { most }
  const words = kind === 'fills' ? FILMS_WORDS.beginAct : FILMS_WORDS.endAct
  const all = (): void =>
    onPlan({
      ...file,
      inks: inksOf(file).map((ink) => ({ ...ink, tones: { least, most, beyond: 'scatter' } })),
    })
  return (
    <>
      {plate >= first && (
        <SecondAct onPress={() => onPlan(keep(plate - first, change))}>
          {words(name, percentText(kind === 'fills' ? least : most))}
        </SecondAct>
      )}
      {isDotted && (
        <SecondAct onPress={all}>
          {FILMS_WORDS.scatterAll(percentText(least), percentText(most))}
        </SecondAct>
      )}
    </>
  )
}

type Held = Readonly<{ least: number; most: number; dotUm: number; islandUm: number }>

/** To whole percents within what the fabric holds; null where it holds no tone. */
function heldTones({ holds }: Preview): Held | null {
  if (holds === null || holds.least >= holds.most) return null
  const { least, most } = holds
  return { ...holds, least: Math.ceil(100 * least) / 100, most: Math.floor(100 * most) / 100 }
}
