import type { ReactNode } from 'react'
import type { Register, ScreenLine } from '../../api/register.ts'
import { Blank } from '../signs/Blank.tsx'
import { SecondAct } from '../signs/Button.tsx'
import type { Chosen } from './givenOut.ts'
import { ScreenTick } from './ManyForm.tsx'
import { MANY_WORDS } from './screensWords.ts'

/** Which of the clean screens, and whose each will be. */
export function ChooseScreens({
  screens,
  people,
  chosen,
  missing,
  onAll,
  onNone,
  onToggle,
  onOwner,
}: Readonly<{
  screens: readonly ScreenLine[]
  people: Register['people']
  chosen: readonly Chosen[]
  /** How many of the class have none yet. */
  missing: number
  onAll: () => void
  onNone: () => void
  onToggle: (tag: string) => void
  onOwner: (tag: string, owner: string | null) => void
}>): ReactNode {
  const words = MANY_WORDS.coat
  if (screens.length === 0) return <p>{words.noClean}</p>
  return (
    <fieldset className="choose">
      <legend>
        {`${words.chosen(chosen.length)}.`}
        {missing > 0 && ` ${words.short(missing)}`}
      </legend>
      <div className="entry-acts">
        <SecondAct onPress={onAll}>{words.all}</SecondAct>
        {chosen.length > 0 && <SecondAct onPress={onNone}>{words.noneOfThem}</SecondAct>}
      </div>
      <ul className="choose-list">
        {screens.map(({ tag, fabric, frame }) => {
          const is = chosen.find((each) => each.tag === tag)
          return (
            <li key={tag}>
              <ScreenTick
                tag={tag}
                says={`${fabric}, ${frame}`}
                isOn={is !== undefined}
                onToggle={() => onToggle(tag)}
              />
              {is !== undefined && people.length > 0 && (
                <span className="sentence">
                  <Blank
                    label={words.whose(tag)}
                    value={is.owner ?? ''}
                    choices={people}
                    open={words.noClass}
                    onChoice={(owner) => onOwner(tag, owner === '' ? null : owner)}
                  />
                </span>
              )}
            </li>
          )
        })}
      </ul>
    </fieldset>
  )
}
