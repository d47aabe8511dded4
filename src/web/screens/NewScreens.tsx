import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { NewScreens as Asked, Register } from '../../api/register.ts'
import { ROUTES, useWay } from '../router.tsx'
import { Blank } from '../signs/Blank.tsx'
import { Entry } from '../tests/Entry.tsx'
import { useSending } from '../tests/useSending.ts'
import { ManyForm } from './ManyForm.tsx'
import './screens.css'
import { MANY_WORDS, SCREENS_WORDS } from './screensWords.ts'

const MOST = 60

/** Frames that get tags, so many at once of one fabric and size. */
export function NewScreens({
  register,
  onMade,
}: Readonly<{ register: Register; onMade: () => void }>): ReactNode {
  const words = MANY_WORDS.fresh
  const { go } = useWay()
  const [firstTag, setFirst] = useState(register.nextTag)
  const [count, setCount] = useState('1')
  const [fabric, setFabric] = useState(register.fabrics[0]?.id ?? '')
  const [frame, setFrame] = useState(register.frames[0]?.id ?? '')
  const [width, setWidth] = useState('')
  const [height, setHeight] = useState('')
  const [newton, setNewton] = useState('')
  const [isAsked, setAsked] = useState(false)
  const sending = useSending<Register>()
  const inside = { widthMm: numberIn(width), heightMm: numberIn(height) }
  const newtonPerCm = numberIn(newton)
  const many = numberIn(count)
  const wrong = {
    first: firstTag.trim() === '' ? words.wrong.first : null,
    count: Number.isInteger(many) && many >= 1 && many <= MOST ? null : words.wrong.count,
    fabric: fabric === '' ? words.wrong.fabric : null,
    frame:
      frame !== '' || (inside.widthMm >= 50 && inside.heightMm >= 50) ? null : words.wrong.frame,
    newton:
      newton.trim() === '' || (newtonPerCm > 0 && newtonPerCm <= 100)
        ? null
        : SCREENS_WORDS.number(newton),
  }
  const make = async (): Promise<void> => {
    setAsked(true)
    if (Object.values(wrong).some((says) => says !== null)) return
    const body: Asked = {
      tags: tagsFrom(firstTag.trim(), many),
      fabric,
      frame: frame === '' ? inside : frame,
      ...(newton.trim() === '' ? {} : { newtonPerCm }),
    }
    const answer = await sending.send({ path: PATHS.screens, method: 'POST', body })
    if (answer === null) return
    onMade()
    go(ROUTES.screens)
  }
  const says = sending.message ?? (isAsked ? (wrong.fabric ?? wrong.frame) : null)
  return (
    <div className="screens">
      <h1>{words.title}</h1>
      <div className="entries">
        <Entry
          label={words.first}
          value={firstTag}
          longest={24}
          wrong={isAsked ? wrong.first : null}
          onEntry={setFirst}
        />
        <Entry
          label={words.count}
          value={count}
          figures="whole"
          wrong={isAsked ? wrong.count : null}
          onEntry={setCount}
        />
        <Entry
          label={words.newton}
          value={newton}
          figures="decimal"
          unit="N/cm"
          wrong={isAsked ? wrong.newton : null}
          onEntry={setNewton}
        />
      </div>
      <p className="sentence">
        {`${words.fabric}: `}
        <Blank
          label={words.fabric}
          value={fabric}
          choices={register.fabrics}
          onChoice={setFabric}
        />
        {`. ${words.frame}: `}
        <Blank
          label={words.frame}
          value={frame}
          choices={register.frames}
          open={words.other}
          onChoice={setFrame}
        />
        .
      </p>
      {frame === '' && (
        <div className="entries">
          <Entry label={words.width} value={width} figures="decimal" unit="mm" onEntry={setWidth} />
          <Entry
            label={words.height}
            value={height}
            figures="decimal"
            unit="mm"
            onEntry={setHeight}
          />
        </div>
      )}
      <ManyForm
        says={says}
        act={{ word: words.act, isBusy: sending.isBusy, onPress: () => void make() }}
      />
    </div>
  )
}

function numberIn(text: string): number {
  return text.trim() === '' ? Number.NaN : Number(text.replace(',', '.'))
}

/** From the first on: 31, 32, 33; A7, A8. A tag without a number at its end stands alone. */
function tagsFrom(firstTag: string, count: number): string[] {
  const [, before = '', digits] = /^(.*?)(\d+)$/.exec(firstTag) ?? []
  if (digits === undefined) return [firstTag]
  return Array.from({ length: count }, (_, at) => {
    return `${before}${String(Number(digits) + at).padStart(digits.length, '0')}`
  })
}
