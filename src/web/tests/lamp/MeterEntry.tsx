import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { ByMeter, Lamp } from '../../../api/lamp.ts'
import { PATHS } from '../../../api/paths.ts'
import { doseText, scaleText } from '../../figures.ts'
import { Button, SecondAct } from '../../signs/Button.tsx'
import { NumberFrame } from '../../signs/NumberFrame.tsx'
import { Entry } from '../Entry.tsx'
import { useSending } from '../useSending.ts'
import { numberWritten } from '../written.ts'
import { METER, type MeterWrong, meterOf, NO_READING, nextReading, START } from './meterDraft.ts'
import { METER_WORDS } from './meterWords.ts'

const NOTHING_WRONG: MeterWrong = { count: null, readings: {} }

/** Seconds by a hand meter, for a lamp that counts nothing but time. */
export function MeterEntry({
  lamp: { unit, meterReading },
  count,
  onTold,
}: Readonly<{ lamp: Lamp; count: string; onTold: () => void }>): ReactNode {
  const place = useRef<HTMLElement>(null)
  // whoever comes with a dose in hand comes for this
  useEffect(() => {
    if (count !== '') place.current?.scrollIntoView()
  }, [count])
  return (
    <section className="timing" ref={place}>
      <h2>{METER_WORDS.title}</h2>
      <p className="how">{METER_WORDS.how}</p>
      <p className="cautions">{METER_WORDS.caution}</p>
      {meterReading === null ? (
        <>
          <p className="how">{METER_WORDS.unsaid}</p>
          <Reference unit={unit.id} onTold={onTold} />
        </>
      ) : (
        <>
          <HowLong unit={unit.id} count={count} />
          <OtherReference unit={unit.id} reading={meterReading} onTold={onTold} />
        </>
      )}
    </section>
  )
}

function HowLong({ unit, count }: Readonly<{ unit: string; count: string }>): ReactNode {
  const [draft, setDraft] = useState({ count, readings: [START] })
  const [wrong, setWrong] = useState(NOTHING_WRONG)
  const [answer, setAnswer] = useState<ByMeter | null>(null)
  const sending = useSending<ByMeter>()
  const change = (changed: typeof draft): void => {
    setDraft(changed)
    setWrong(NOTHING_WRONG)
  }
  const changeReading = (at: number, changed: Partial<typeof START>): void => {
    const readings = draft.readings.with(at, { ...NO_READING, ...draft.readings[at], ...changed })
    change({ ...draft, readings })
  }
  const reckon = async (): Promise<void> => {
    const asked = meterOf(draft, unit)
    if (asked.question === null) {
      setWrong(asked.wrong)
      return
    }
    const told = await sending.send({ path: PATHS.meter, method: 'POST', body: asked.question })
    if (told === null) return
    setAnswer(told)
    const isFull = draft.readings.every(({ reading }) => reading.trim() !== '')
    if (isFull && told.moreSec.value > 0) {
      setDraft({ ...draft, readings: [...draft.readings, nextReading(told.readAgainSec)] })
    }
  }
  const begin = (): void => {
    change({ ...draft, readings: [START] })
    setAnswer(null)
  }
  return (
    <form
      className="timing"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        if (!sending.isBusy) void reckon()
      }}
    >
      <Entry
        label={METER_WORDS.count}
        value={draft.count}
        unit={METER_WORDS.seconds}
        figures="decimal"
        wrong={wrong.count}
        onEntry={(written) => change({ ...draft, count: written })}
      />
      <div className="pairs">
        <p className="pairs-head" aria-hidden="true">
          <span>{METER_WORDS.clock}</span>
          <span>{METER_WORDS.reading}</span>
        </p>
        {draft.readings.map(({ clock, reading }, at) => (
          <div key={at} className="pair">
            <Entry
              quiet
              label={METER_WORDS.clockAt(at + 1)}
              value={clock}
              figures="clock"
              isWrong={wrong.readings[at] !== undefined}
              onEntry={(written) => changeReading(at, { clock: written })}
            />
            <Entry
              quiet
              label={METER_WORDS.readingAt(at + 1)}
              value={reading}
              figures="decimal"
              isWrong={wrong.readings[at] !== undefined}
              onEntry={(written) => changeReading(at, { reading: written })}
            />
            {wrong.readings[at] !== undefined && (
              <p role="alert" className="entry-wrong">
                {wrong.readings[at]}
              </p>
            )}
          </div>
        ))}
      </div>
      <p aria-live="polite" className="entry-wrong read-refused">
        {sending.message}
      </p>
      <Button kind="submit" busy={sending.isBusy}>
        {sending.isBusy ? METER_WORDS.busy : METER_WORDS.act}
      </Button>
      <div aria-live="polite" className="meter-says">
        {answer !== null && <Says answer={answer} />}
      </div>
      {answer !== null && <SecondAct onPress={begin}>{METER_WORDS.again}</SecondAct>}
    </form>
  )
}

function Says({ answer }: Readonly<{ answer: ByMeter }>): ReactNode {
  const { moreSec, given, sentences } = answer
  const isFirst = given.value === 0
  return (
    <>
      {moreSec.value === 0 ? (
        <NumberFrame value={METER_WORDS.enough} range={METER_WORDS.enoughRange} />
      ) : (
        <NumberFrame
          value={doseText(moreSec.value)}
          unit={METER_WORDS.more(isFirst)}
          range={METER_WORDS.range(doseText(moreSec.low), doseText(moreSec.high))}
        />
      )}
      <ul className="lamp-says">
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </>
  )
}

/** The light in which the seconds are counted. */
function Reference({
  unit,
  onTold,
  onLeave,
}: Readonly<{ unit: string; onTold: () => void; onLeave?: () => void }>): ReactNode {
  const [written, setWritten] = useState('')
  const [isTried, setTried] = useState(false)
  const sending = useSending<Lamp>()
  const reading = numberWritten(written, METER)
  const isWrong = reading.kind === 'wrong' || (isTried && reading.kind === 'nothing')
  const take = async (): Promise<void> => {
    setTried(true)
    if (reading.kind !== 'number') return
    const body = { reading: reading.value, ...(unit === '' ? {} : { unit }) }
    const lamp = await sending.send({ path: PATHS.meterReference, method: 'POST', body })
    if (lamp !== null) onTold()
  }
  return (
    <>
      <Entry
        label={METER_WORDS.reference}
        value={written}
        figures="decimal"
        example="62"
        wrong={isWrong ? METER_WORDS.wrongReading(written.trim()) : null}
        onEntry={setWritten}
      />
      {sending.message !== null && (
        <p role="alert" className="entry-wrong">
          {sending.message}
        </p>
      )}
      <div className="entry-acts">
        <SecondAct onPress={() => void take()}>{METER_WORDS.keep}</SecondAct>
        {onLeave !== undefined && <SecondAct onPress={onLeave}>{METER_WORDS.leave}</SecondAct>}
      </div>
    </>
  )
}

function OtherReference({
  unit,
  reading,
  onTold,
}: Readonly<{ unit: string; reading: number; onTold: () => void }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return (
    <div className="unfolding">
      <p className="small">{METER_WORDS.counted(scaleText(reading))}</p>
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {METER_WORDS.other}
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <p className="how">{METER_WORDS.otherHow}</p>
          <Reference
            unit={unit}
            onTold={() => {
              setOpen(false)
              onTold()
            }}
            onLeave={() => setOpen(false)}
          />
        </div>
      )}
    </div>
  )
}
