import { type ReactNode, useState } from 'react'
import type { ColourAsked, PrintPlanTold } from '../../api/printPlan.ts'
import { capital } from '../../workflow/printPlanNumbers.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { ColourPhoto, NONE_PICKED, type Picked } from './ColourPhoto.tsx'
import { PLAN_WORDS } from './planWords.ts'
import type { PlanHeld } from './usePlan.ts'

const WORDS = PLAN_WORDS.colour
const SIGNED = /^[-−]?\d{1,3}([.,]\d{1,2})?$/
const CHANNELS = ['L', 'a', 'b'] as const

type Reading = readonly [string, string, string]

/** Colours that were checked, newest first under each layer. */
export function ColourChecks({
  plan: { layers },
  held,
  isOpen,
}: Readonly<{ plan: PrintPlanTold; held: PlanHeld; isOpen: boolean }>): ReactNode {
  const checks = layers.flatMap(({ checks: of, ink, shortName }) =>
    of.map((check) => ({ ...check, name: capital(ink ?? shortName) })),
  )
  if (checks.length === 0) return null
  return (
    <ul className="colour-log">
      {checks.map(({ id, name, on, how, verdict, deltaE, doubtDeltaE, lab: [l, a, b] }) => (
        <li key={id}>
          <span
            className="colour-swatch"
            style={{ background: `lab(${l} ${a} ${b})` }}
            aria-hidden="true"
          />
          <span>
            {`${name} ${WORDS.verdicts[verdict]}: ${WORDS.says(deltaE, doubtDeltaE)} (${WORDS.how[how]}, ${on}).`}
          </span>
          {isOpen && (
            <SecondAct onPress={() => void held.check({ kind: 'take back', check: id })}>
              {WORDS.takeBack}
            </SecondAct>
          )}
        </li>
      ))}
    </ul>
  )
}

/** A layer's colour against its proof. */
export function ColourCheck({
  plan: { layers },
  held,
}: Readonly<{ plan: PrintPlanTold; held: PlanHeld }>): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [layer, setLayer] = useState('')
  const [how, setHow] = useState<'measured' | 'photo'>('measured')
  const [readings, setReadings] = useState<readonly Reading[]>([['', '', '']])
  const [picked, setPicked] = useState<Picked>(NONE_PICKED)
  const [cardL, setCardL] = useState('49.5')
  const [wrong, setWrong] = useState<string | null>(null)
  const check = async (): Promise<void> => {
    const asked = how === 'measured' ? measured(layer, readings) : seen(layer, { picked, cardL })
    setWrong(typeof asked === 'string' ? asked : null)
    if (typeof asked !== 'string' && (await held.check(asked))) {
      setReadings([['', '', '']])
      setOpen(false)
    }
  }
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {WORDS.open}
      </SecondAct>
      {isOpen && (
        <div className="unfolded">
          <p>{WORDS.lead}</p>
          <p className="sentence">
            <Blank
              label={WORDS.layer}
              value={layer}
              choices={layers.flatMap(({ id, ink }) => (ink === null ? [] : [{ id, name: ink }]))}
              open={WORDS.aLayer}
              onChoice={setLayer}
            />
            {`. ${WORDS.byLead}`}
            <Blank
              label={WORDS.by}
              value={how}
              choices={[
                { id: 'measured', name: WORDS.measured },
                { id: 'photo', name: WORDS.photo },
              ]}
              onChoice={(chosen) => setHow(chosen === 'photo' ? 'photo' : 'measured')}
            />
            .
          </p>
          {how === 'measured' ? (
            <Readings readings={readings} onReadings={setReadings} />
          ) : (
            <>
              <p>{WORDS.photoDoubt}</p>
              <Entry label={WORDS.cardL} value={cardL} figures="decimal" onEntry={setCardL} />
              <ColourPhoto picked={picked} onPicked={setPicked} />
            </>
          )}
          {wrong !== null && (
            <p role="alert" className="entry-wrong">
              {wrong}
            </p>
          )}
          <SecondAct onPress={() => void check()}>{WORDS.act}</SecondAct>
        </div>
      )}
    </div>
  )
}

function Readings({
  readings,
  onReadings,
}: Readonly<{
  readings: readonly Reading[]
  onReadings: (readings: readonly Reading[]) => void
}>): ReactNode {
  return (
    <div className="colour-readings">
      {readings.map((reading, place) => (
        // a reading is known by its place
        // oxlint-disable-next-line react/no-array-index-key
        <fieldset key={place} className="entries">
          <legend>{WORDS.reading(place + 1)}</legend>
          {CHANNELS.map((channel, at) => (
            <Entry
              key={channel}
              label={channel}
              value={reading[at] ?? ''}
              figures="decimal"
              onEntry={(text) => {
                const [l, a, b] = reading.map((each, index) => (index === at ? text : each))
                onReadings(readings.with(place, [l ?? '', a ?? '', b ?? '']))
              }}
            />
          ))}
        </fieldset>
      ))}
      <SecondAct onPress={() => onReadings([...readings, ['', '', '']])}>{WORDS.add}</SecondAct>
    </div>
  )
}

/** What is asked, or in a sentence what is wrong with it. */
function measured(layer: string, readings: readonly Reading[]): ColourAsked | string {
  if (layer === '') return WORDS.layerMissing
  const written = readings.filter((reading) => reading.some((text) => text.trim() !== ''))
  if (written.length === 0) return WORDS.missing
  const number = (text: string): number =>
    SIGNED.test(text.trim()) ? Number(text.trim().replace('−', '-').replace(',', '.')) : Number.NaN
  for (const reading of written) {
    for (const [at, channel] of CHANNELS.entries()) {
      const text = reading[at] ?? ''
      const { low, high } = channel === 'L' ? { low: 0, high: 100 } : { low: -160, high: 160 }
      const value = number(text)
      if (!(value >= low && value <= high)) return WORDS.channelWrong(channel, { low, high, text })
    }
  }
  return {
    kind: 'measured',
    layer,
    readings: written.map(([l, a, b]) => [number(l), number(a), number(b)]),
  }
}

function seen(
  layer: string,
  { picked: { card, patch }, cardL }: Readonly<{ picked: Picked; cardL: string }>,
): ColourAsked | string {
  if (layer === '') return WORDS.layerMissing
  if (card === null || patch === null) return WORDS.pickMissing
  const lightness = Number(cardL.trim().replace(',', '.'))
  if (!(lightness >= 10 && lightness <= 99)) return WORDS.cardWrong
  return { kind: 'photo', layer, card, patch, cardL: lightness }
}
