import { type ReactNode, useState } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Coated as Answer, Register } from '../../api/register.ts'
import { newKey } from '../newKey.ts'
import { NotShown } from '../people/NotShown.tsx'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { DayEntry } from '../tests/DayEntry.tsx'
import { useSending } from '../tests/useSending.ts'
import { ChooseScreens } from './ChooseScreens.tsx'
import { Coated } from './Coated.tsx'
import { type Chosen, givenOut, toggled, withOwner, withoutScreen } from './givenOut.ts'
import { ManyForm } from './ManyForm.tsx'
import './screens.css'
import { MANY_WORDS } from './screensWords.ts'

const FAR = '2100-12-31'
const RECIPES = ['once on each side', 'twice on the print side'] as const
const USUAL = { dryHours: '2', goodDays: '28' }

/** Many screens coated at once, each for somebody of a class. */
export function CoatMany({
  register,
  tags,
  onCoated,
}: Readonly<{
  register: Register
  tags: readonly string[]
  onCoated: () => void
}>): ReactNode {
  const words = MANY_WORDS.coat
  const clean = register.screens.filter(({ state }) => state === 'clean')
  const classes = [...new Set(register.people.flatMap(({ className }) => className ?? []))].sort()
  const [className, setClass] = useState('')
  const [chosen, setChosen] = useState<readonly Chosen[]>(() =>
    clean.filter(({ tag }) => tags.includes(tag)).map(({ tag }) => ({ tag, owner: null })),
  )
  const [recipe, setRecipe] = useState<string>(register.recipe)
  const [bucket, setBucket] = useState('')
  const here = register.drying
  const [dryHours, setDryHours] = useState(here === null ? USUAL.dryHours : String(here.hours))
  const [goodDays, setGoodDays] = useState(USUAL.goodDays)
  const [until, setUntil] = useState('')
  const [key, setKey] = useState(newKey)
  const [isAsked, setAsked] = useState(false)
  const [done, setDone] = useState<Answer | null>(null)
  const sending = useSending<Answer>()
  const membersOf = (group: string): Register['people'] =>
    register.people.filter((person) => person.className === group)
  const pupils = membersOf(className)
  const waiting = withoutScreen(pupils, register.screens)
  const wrong = {
    dry: isNumber(dryHours, { low: 0, high: 72 }) ? null : words.hoursWrong,
    good: isNumber(goodDays, { low: 1, high: 365 }) ? null : words.daysWrong,
    none: chosen.length === 0 ? words.missing : null,
  }
  const choose = (all: readonly Chosen[]): void => setChosen(all)
  const forClass = (group: string): void => {
    setClass(group)
    const members = withoutScreen(membersOf(group), register.screens)
    const wanted = members.length === 0 ? chosen.map(({ tag }) => tag) : clean.map(({ tag }) => tag)
    choose(
      givenOut(
        wanted,
        members.map(({ id }) => id),
      ),
    )
  }
  const coat = async (): Promise<void> => {
    setAsked(true)
    if (Object.values(wrong).some((says) => says !== null)) return
    const body = {
      key,
      screens: chosen,
      recipe,
      ...(bucket === '' ? {} : { bucket }),
      dryHours: Number(dryHours.replace(',', '.')),
      goodDays: Number(goodDays),
      ...(until === '' ? {} : { until }),
    }
    const answer = await sending.send({ path: PATHS.coatings, method: 'POST', body })
    if (answer === null) return
    setDone(answer)
    setKey(newKey())
    setChosen([])
    setAsked(false)
    scrollTo(0, 0)
    onCoated()
  }
  if (done !== null && clean.length === 0) {
    return (
      <div className="screens coating">
        <h1>{words.title}</h1>
        <Coated coated={done} register={register} />
        <ManyForm says={null} act={null} />
      </div>
    )
  }
  const recipes = [...new Set([register.recipe, ...RECIPES])].map((name) => ({ id: name, name }))
  return (
    <div className={done === null ? 'screens' : 'screens coating'}>
      <h1>{words.title}</h1>
      <p className="screens-lead">{words.lead}</p>
      <p className="cautions">{words.caution}</p>
      <NotShown act="coat" />
      {done !== null && <Coated coated={done} register={register} />}
      <p className="sentence">
        {classes.length > 0 && (
          <>
            {`${words.className} `}
            <Blank
              label={words.className}
              value={className}
              choices={classes.map((name) => ({ id: name, name }))}
              open={words.noClass}
              onChoice={forClass}
            />
            {'. '}
          </>
        )}
        {`${words.recipe} `}
        <Blank label={words.recipe} value={recipe} choices={recipes} onChoice={setRecipe} />
        {register.buckets.length > 0 && (
          <>
            {`, ${words.bucket.toLowerCase()} `}
            <Blank
              label={words.bucket}
              value={bucket}
              choices={register.buckets}
              open={words.newest}
              onChoice={setBucket}
            />
          </>
        )}
        {`. ${words.dryHours} `}
        <BlankEntry
          label={`${words.dryHours}, ${words.hours}`}
          value={dryHours}
          open={USUAL.dryHours}
          numeric
          longest={4}
          wrong={isAsked ? wrong.dry : null}
          onEntry={setDryHours}
        />
        {` ${words.hours}, ${words.goodDays.toLowerCase()} `}
        <BlankEntry
          label={`${words.goodDays}, ${words.days}`}
          value={goodDays}
          open={USUAL.goodDays}
          numeric
          longest={3}
          wrong={isAsked ? wrong.good : null}
          onEntry={setGoodDays}
        />
        {` ${words.days}.`}
      </p>
      {here !== null && <p className="small">{words.dryingHere(here.hours, here.of)}</p>}
      <DayEntry label={words.until} value={until} latest={FAR} onEntry={setUntil} />
      <ChooseScreens
        screens={clean}
        people={pupils.length === 0 ? register.people : pupils}
        chosen={chosen}
        missing={Math.max(0, waiting.length - chosen.length)}
        onAll={() =>
          choose(
            givenOut(
              clean.map(({ tag }) => tag),
              waiting.map(({ id }) => id),
            ),
          )
        }
        onNone={() => choose([])}
        onToggle={(tag) => choose(toggled(chosen, { tag, free: waiting.map(({ id }) => id) }))}
        onOwner={(tag, owner) => choose(withOwner(chosen, { tag, owner }))}
      />
      <ManyForm
        says={sending.message ?? (isAsked ? wrong.none : null)}
        act={{ word: words.act, isBusy: sending.isBusy, onPress: () => void coat() }}
      />
    </div>
  )
}

function isNumber(text: string, { low, high }: Readonly<{ low: number; high: number }>): boolean {
  const value = Number(text.replace(',', '.'))
  return text.trim() !== '' && value >= low && value <= high
}
