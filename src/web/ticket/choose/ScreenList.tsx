import { type ReactNode, useState } from 'react'
import { PATHS } from '../../../api/paths.ts'
import type { ScreenChoice } from '../../../api/screenChoice.ts'
import { clockText } from '../../figures.ts'
import { lengthText } from '../../film/findingSays.ts'
import { Standing } from '../../frame/Standing.tsx'
import { useUnits } from '../../shop.tsx'
import { Blank, BlankEntry } from '../../signs/Blank.tsx'
import { SecondAct } from '../../signs/Button.tsx'
import { StationFrame } from '../../signs/StationFrame.tsx'
import { useAsked } from '../../useAsked.ts'
import './choose.css'
import { asking } from '../../ask.ts'
import { CHOOSE_WORDS } from './chooseWords.ts'

export type ScreenShown = ScreenChoice['screens'][number]
type FilmShown = NonNullable<ScreenChoice['film']>

const FEW = 3
const PAUSE_MS = 300
const LINES = { low: 4, high: 120 }

/** The shop's screens for a film or a layer, the best first, each with why. */
export function ScreenList({
  of,
  acts,
  foot,
}: Readonly<{
  of: Readonly<{ film: string } | { layer: string }>
  acts: (screen: ScreenShown, isFirst: boolean) => ReactNode
  foot?: (film: FilmShown) => ReactNode
}>): ReactNode {
  const [ruling, setRuling] = useState('')
  const [ink, setInk] = useState('')
  const [isWhole, setWhole] = useState(false)
  const lines = Number(ruling.trim().replace(',', '.'))
  const isWrong = ruling.trim() !== '' && !(lines >= LINES.low && lines <= LINES.high)
  const asked = new URLSearchParams(of)
  if (ruling.trim() !== '' && !isWrong) asked.set('rulingPerCm', String(lines))
  if (ink !== '') asked.set('ink', ink)
  const path = asking(PATHS.screenChoice, asked)
  const [choice, askAgain] = useAsked<ScreenChoice>({ path }, { pauseMs: PAUSE_MS })
  const { answer } = choice
  const screens = answer?.screens ?? []
  const shown = isWhole ? screens : screens.slice(0, FEW)
  return (
    <div className="unfolded choose">
      {answer !== null && (
        <p>
          <FilmSays film={answer.film} />
        </p>
      )}
      <p>
        {CHOOSE_WORDS.tones}
        <BlankEntry
          label={CHOOSE_WORDS.ruling}
          value={ruling}
          open={CHOOSE_WORDS.noHalftone}
          numeric
          longest={5}
          wrong={isWrong ? CHOOSE_WORDS.rulingWrong : null}
          onEntry={setRuling}
        />
        {ruling !== '' && CHOOSE_WORDS.linesPerCm}
        {CHOOSE_WORDS.inkLies}
        <Blank
          label={CHOOSE_WORDS.ink}
          value={ink}
          choices={CHOOSE_WORDS.inks}
          open={CHOOSE_WORDS.anyhow}
          onChoice={setInk}
        />
        .
      </p>
      <Standing asked={choice} working={CHOOSE_WORDS.fetching} onAgain={askAgain} />
      <ol className="choose-list">
        {shown.map((screen, at) => (
          <li key={screen.id}>
            <OneScreen screen={screen} />
            {acts(screen, at === 0)}
          </li>
        ))}
      </ol>
      {screens.length > FEW && (
        <SecondAct expanded={isWhole} onPress={() => setWhole(!isWhole)}>
          {isWhole ? CHOOSE_WORDS.fewer : CHOOSE_WORDS.more(screens.length - FEW)}
        </SecondAct>
      )}
      {answer?.film !== null && answer?.film !== undefined && foot?.(answer.film)}
    </div>
  )
}

function FilmSays({ film }: Readonly<{ film: ScreenChoice['film'] }>): ReactNode {
  const units = useUnits()
  if (film === null) return CHOOSE_WORDS.noFilm
  return film.finestMm === null
    ? CHOOSE_WORDS.notKnown
    : CHOOSE_WORDS.finest(lengthText(film.finestMm, units))
}

function OneScreen({
  screen: { name, fabric, frame, rackSlot, when, dryAt, reasons },
}: Readonly<{ screen: ScreenShown }>): ReactNode {
  const where = [fabric, frame, ...(rackSlot === null ? [] : [CHOOSE_WORDS.rack(rackSlot)])]
  return (
    <>
      <p className="choose-head">
        <span aria-hidden="true">
          <StationFrame state={dryAt === null ? CHOOSE_WORDS.sign[when] : 'drying'} size={22} />
        </span>
        <strong className="choose-name">{name}</strong>
        <span>{CHOOSE_WORDS.when[when]}</span>
        <span className="soft">{where.join(', ')}</span>
      </p>
      <ul className="choose-reasons">
        {reasons.map(({ about, says, text }) => (
          <li key={about} data-says={says}>
            {text}
            {about === 'standing' && dryAt !== null && (
              <> {CHOOSE_WORDS.notBefore(clockText(new Date(dryAt)))}</>
            )}
          </li>
        ))}
      </ul>
    </>
  )
}
