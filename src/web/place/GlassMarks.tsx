import { type ReactNode, useState } from 'react'
import { glassMarkPath, PATHS } from '../../api/paths.ts'
import type { GlassTold, Place } from '../../api/place.ts'
import { Link, ROUTES } from '../router.tsx'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Entry } from '../tests/Entry.tsx'
import { rulerText } from '../tests/lengths.ts'
import { useSending } from '../tests/useSending.ts'
import { lengthWritten, valueOf } from '../tests/written.ts'
import { PLACE_WORDS } from './placeWords.ts'

const FIELDS = ['x', 'y', 'width', 'height'] as const
type Field = (typeof FIELDS)[number]
const FAR = { low: 0, high: 20_000 }
const NOTHING: Readonly<Record<Field, string>> = { x: '', y: '', width: '', height: '' }

/** What is on the glass under the screen, and a new one to keep clear of. */
export function GlassMarks({
  place,
  onChanged,
}: Readonly<{ place: Place; onChanged: () => void }>): ReactNode {
  const words = PLACE_WORDS.onGlass
  const units = useUnits()
  const [isOpen, setOpen] = useState(false)
  const [what, setWhat] = useState('')
  const [written, setWritten] = useState(NOTHING)
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<GlassTold>()
  const { glass } = place
  const lengthOf = (field: Field): number | null =>
    valueOf(lengthWritten(written[field], FAR, units))
  const add = async (unit: string): Promise<void> => {
    setAsked(true)
    const [xMm, yMm, widthMm, heightMm] = FIELDS.map(lengthOf)
    const [x, y, width, height] = [xMm ?? null, yMm ?? null, widthMm ?? null, heightMm ?? null]
    if (x === null || y === null || width === null || height === null) return
    if (what.trim() === '') return
    const box = { xMm: x, yMm: y, widthMm: width, heightMm: height }
    const body = { unit, what: what.trim(), ...box }
    if ((await sending.send({ path: PATHS.glassMarks, method: 'POST', body })) === null) return
    setWritten(NOTHING)
    setWhat('')
    setAsked(false)
    onChanged()
  }
  const gone = async (mark: string): Promise<void> => {
    const asked = { path: glassMarkPath(mark), method: 'DELETE' } as const
    if ((await sending.send(asked)) !== null) onChanged()
  }
  return (
    <div className="unfolding">
      <SecondAct expanded={isOpen} onPress={() => setOpen(!isOpen)}>
        {words.title}
      </SecondAct>
      {isOpen && glass === null && (
        <p className="unfolded">
          {words.noGlass} <Link to={ROUTES.evenness}>{words.measure}</Link>
        </p>
      )}
      {isOpen && glass !== null && (
        <div className="unfolded">
          {glass.marks.map((mark) => (
            <p key={mark.id} className="place-mark">
              <span>{`${mark.what}: ${rulerText(mark.xMm, units)}, ${rulerText(mark.yMm, units)}`}</span>
              <SecondAct onPress={() => void gone(mark.id)}>{words.gone(mark.what)}</SecondAct>
            </p>
          ))}
          <p className="small">{words.lead}</p>
          <Entry
            label={words.what}
            value={what}
            example={words.whatExample}
            longest={80}
            isWrong={isAsked && what.trim() === ''}
            onEntry={setWhat}
          />
          <div className="entries">
            {FIELDS.map((field) => (
              <Entry
                key={field}
                label={words[field]}
                value={written[field]}
                figures="decimal"
                unit={units === 'metric' ? 'mm' : 'in'}
                isWrong={isAsked && lengthOf(field) === null}
                onEntry={(text) => setWritten({ ...written, [field]: text })}
              />
            ))}
          </div>
          {isAsked && FIELDS.some((field) => lengthOf(field) === null) && (
            <p role="alert" className="entry-wrong">
              {words.wrong}
            </p>
          )}
          {sending.message !== null && (
            <p role="alert" className="entry-wrong">
              {sending.message}
            </p>
          )}
          <SecondAct onPress={() => void add(glass.unit.id)}>{words.act}</SecondAct>
        </div>
      )}
    </div>
  )
}
