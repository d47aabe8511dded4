import { type ReactNode, useId, useState } from 'react'
import type { LightAnswer } from '../../api/light.ts'
import { PATHS } from '../../api/paths.ts'
import { doseText } from '../figures.ts'
import { Link, ROUTES, useWay } from '../router.tsx'
import '../signs/button.css'
import { Cloth } from '../signs/Cloth.tsx'
import { Icon } from '../signs/icons.tsx'
import { NumberFrame } from '../signs/NumberFrame.tsx'
import { TenFrames } from '../signs/TenFrames.tsx'
import { LIGHT_WORDS, SIGN_WORDS } from '../words.ts'

/** The number, how sure it is and why, and what to do with it. */
export function Answer({
  answer,
  dimmed,
  children,
}: Readonly<{ answer: LightAnswer; dimmed: boolean; children: ReactNode }>): ReactNode {
  const { dose, cloth, countsIn, changed, asked } = answer
  const isFilm = asked.subject.kind === 'film'
  const old = dimmed ? ' answer-old' : ''
  return (
    <>
      <div className={`answer-picture${old}`} aria-busy={dimmed}>
        <Number answer={answer} dimmed={dimmed} />
        <Cloth
          cloth={cloth}
          doseLu={dose.value}
          unitWord={LIGHT_WORDS.units[countsIn]}
          rows={isFilm ? 'palest lowest' : 'mixed'}
          numbers={answer.verdict === 'works' ? [dose.low, dose.high] : []}
        />
        <HowSure answer={answer} />
      </div>
      <div className={`answer-words${old}`}>
        {changed !== null && (
          <p className="changed">
            <Icon of="light" size={20} />
            <span>{changed}</span>
          </p>
        )}
        {answer.verdict === 'no dose' && <Advice lines={answer.advice} />}
        <Acts answer={answer} />
        {children}
      </div>
    </>
  )
}

function Number({ answer, dimmed }: Readonly<{ answer: LightAnswer; dimmed: boolean }>): ReactNode {
  const { dose, countsIn, verdict, word, lampTime } = answer
  const unit = LIGHT_WORDS.units[countsIn]
  const [value, low, high] = [doseText(dose.value), doseText(dose.low), doseText(dose.high)]
  if (verdict === 'no dose') {
    return (
      <NumberFrame
        value={LIGHT_WORDS.noDose}
        range={LIGHT_WORDS.opensUpTo(value, unit)}
        dimmed={dimmed}
      />
    )
  }
  const seconds =
    lampTime === null || countsIn === 'light units'
      ? ''
      : LIGHT_WORDS.fromColdAndHot(doseText(lampTime.coldSec), doseText(lampTime.hotSec))
  const range =
    word === 'a first guess'
      ? LIGHT_WORDS.couldBeRight(low, high)
      : LIGHT_WORDS.shouldWork(low, high)
  return <NumberFrame value={value} unit={unit} range={`${seconds}${range}`} dimmed={dimmed} />
}

function HowSure({ answer }: Readonly<{ answer: LightAnswer }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const id = useId()
  const { screensInTen, reasons, word, lampTime, countsIn } = answer
  return (
    <div className="how-sure">
      <div className="in-ten">
        <TenFrames good={screensInTen} />
        <p>
          <strong>{LIGHT_WORDS.inTen(screensInTen)}</strong>
          {LIGHT_WORDS.comeOut(screensInTen)}
          <button
            type="button"
            className="word-link"
            aria-expanded={isOpen}
            aria-controls={id}
            onClick={() => setOpen(!isOpen)}
          >
            {LIGHT_WORDS.why}
          </button>
        </p>
      </div>
      <div id={id} className="reasons" hidden={!isOpen}>
        <p>
          <strong>
            {word === 'a first guess' ? LIGHT_WORDS.firstGuess : LIGHT_WORDS.sure(word)}
          </strong>
        </p>
        <ul>
          {reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
          {lampTime === null ? (
            countsIn === 'seconds' && <li>{LIGHT_WORDS.notTimed}</li>
          ) : (
            <li>{lampTime.says}</li>
          )}
        </ul>
        <Link to={ROUTES.signs} className="second-act">
          <span>{SIGN_WORDS.link}</span>
        </Link>
      </div>
    </div>
  )
}

/** What to do besides, one line each. */
function Advice({ lines }: Readonly<{ lines: readonly string[] }>): ReactNode {
  if (lines.length === 0) return null
  return (
    <ul className="advice">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  )
}

function Acts({ answer }: Readonly<{ answer: LightAnswer }>): ReactNode {
  const { search } = useWay()
  const { dose, countsIn, asked, word, verdict } = answer
  const doubtful = verdict === 'no dose' || word === 'a first guess' || word === 'in doubt'
  return (
    <div className="acts">
      {doubtful && (
        <Link to={stripFor(asked)} className="second-act">
          <span>{LIGHT_WORDS.strip}</span>
        </Link>
      )}
      <Link to={`${ROUTES.bench}?${onGlass(asked, search)}`} className="act act-wide">
        {LIGHT_WORDS.act}
      </Link>
      <a href={`${PATHS.runSheet}?${onGlass(asked, search)}`} className="second-act">
        <span>{LIGHT_WORDS.onPaper}</span>
      </a>
      {countsIn === 'seconds' && (
        <Link to={meterFor(asked.unit.id, dose.value)} className="second-act">
          <span>{LIGHT_WORDS.byMeter}</span>
        </Link>
      )}
      {verdict === 'works' && <Advice lines={answer.advice} />}
      <Link to={ROUTES.photo} className="second-act own-drawing">
        <Icon of="film" size={22} />
        <span>{LIGHT_WORDS.ownDrawing}</span>
      </Link>
    </div>
  )
}

/** What was asked, and the place on the glass where it was, for the bench. */
function onGlass({ subject, base, screen, unit }: LightAnswer['asked'], search: string): string {
  const place = new URLSearchParams(search).get('place')
  const asked = {
    [subject.kind]: subject.id,
    base: base.id,
    unit: unit.id,
    ...(screen === null ? {} : { screen: screen.id }),
    ...(place === null ? {} : { place }),
  }
  return new URLSearchParams(asked).toString()
}

/** Today's seconds by a hand meter, for this dose. */
function meterFor(unit: string, count: number): string {
  return `${ROUTES.lamp}?${new URLSearchParams({ unit, count: doseText(count) }).toString()}`
}

/** The strip that would tell more about what was asked. */
function stripFor({ subject, unit }: LightAnswer['asked']): string {
  const medium = subject.kind === 'medium' ? { medium: subject.id } : {}
  return `${ROUTES.strip}?${new URLSearchParams({ unit: unit.id, ...medium }).toString()}`
}
