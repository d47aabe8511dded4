import type { ReactNode } from 'react'
import { Blank } from '../signs/Blank.tsx'
import { PEOPLE_WORDS } from './peopleWords.ts'

/** Which class is meant. */
export function ClassChoice({
  classes,
  chosen,
  onChoice,
}: Readonly<{
  classes: readonly string[]
  chosen: string
  onChoice: (className: string) => void
}>): ReactNode {
  const words = PEOPLE_WORDS.classChoice
  return (
    <p className="sentence">
      {`${words.label}: `}
      <Blank
        label={words.label}
        value={chosen}
        choices={classes.map((name) => ({ id: name, name }))}
        open={words.choose}
        onChoice={onChoice}
      />
    </p>
  )
}
