import type { ReactNode } from 'react'
import type { Trouble } from '../../api/diagnosis.ts'
import { signPicturePath } from '../../api/paths.ts'
import type { SaySign } from './TroublePage.tsx'
import { TROUBLE_WORDS } from './troubleWords.ts'

type Sign = Trouble['signs'][number]

const WHERE = Object.keys(TROUBLE_WORDS.where) as readonly Sign['where'][]

/** Where most failures are seen first. */
const AT_ONCE: ReadonlySet<Sign['where']> = new Set(['at the sink', 'against the light'])

/** Signs that the forecast draws. */
const PICTURED: ReadonlySet<string> = new Set([
  'ground washes off',
  'slime inside',
  'thin marks shut',
  'nothing opens',
  'soft edges',
  'blurred in one place',
  'one side weak',
  'mirrored',
])

/** What may be seen, by where one sees it; each is touched once for yes and again for nobody knows. */
export function SignChoice({
  trouble: { signs },
  yes,
  no,
  onSay,
}: Readonly<{
  trouble: Trouble
  yes: readonly string[]
  no: readonly string[]
  onSay: SaySign
}>): ReactNode {
  return (
    <>
      <p>{TROUBLE_WORDS.lead}</p>
      {WHERE.map((where) => {
        const own = signs.filter(
          (sign) => sign.where === where && (!sign.isTest || isSaid(sign, yes, no)),
        )
        const drawn = own.filter(({ name }) => PICTURED.has(name))
        const plain = own.filter(({ name }) => !PICTURED.has(name))
        const isOpen = AT_ONCE.has(where) || own.some((sign) => isSaid(sign, yes, no))
        return (
          <details className="trouble-where" key={where} open={isOpen}>
            <summary>{TROUBLE_WORDS.where[where]}</summary>
            {[drawn, plain].map(
              (some, at) =>
                some.length > 0 && (
                  <div className="trouble-choices" key={at === 0 ? 'drawn' : 'plain'}>
                    {some.map(({ name, says }) => (
                      <SignButton
                        key={name}
                        says={no.includes(name) ? TROUBLE_WORDS.not(says) : says}
                        picture={PICTURED.has(name) ? name : null}
                        isOn={yes.includes(name)}
                        onPress={() =>
                          onSay(name, yes.includes(name) || no.includes(name) ? null : 'yes')
                        }
                      />
                    ))}
                  </div>
                ),
            )}
          </details>
        )
      })}
    </>
  )
}

function isSaid({ name }: Sign, yes: readonly string[], no: readonly string[]): boolean {
  return yes.includes(name) || no.includes(name)
}

function SignButton({
  says,
  picture,
  isOn,
  onPress,
}: Readonly<{
  says: string
  picture: string | null
  isOn: boolean
  onPress: () => void
}>): ReactNode {
  return (
    <button
      type="button"
      className={picture === null ? 'trouble-sign' : 'trouble-sign trouble-sign-drawn'}
      aria-pressed={isOn}
      onClick={onPress}
    >
      {picture !== null && (
        <img src={signPicturePath(picture)} alt={TROUBLE_WORDS.picture(says)} loading="lazy" />
      )}
      <span>{says}</span>
    </button>
  )
}
