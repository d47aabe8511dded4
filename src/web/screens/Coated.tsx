import type { ReactNode } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Coated as Answer, Register } from '../../api/register.ts'
import { clockText } from '../figures.ts'
import { Link, ROUTES } from '../router.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { dayWords } from './screenSays.ts'
import './screens.css'
import { MANY_WORDS } from './screensWords.ts'

/** What was coated: whose each is, until when, and its papers. */
export function Coated({
  coated,
  register,
}: Readonly<{ coated: Answer; register: Register }>): ReactNode {
  const words = MANY_WORDS.coat
  const dry = clockText(new Date(coated.dryAt))
  const query = new URLSearchParams({ tags: coated.coated.join(','), say: 'coat' })
  const ownerOf = (tag: string): string =>
    register.screens.find((screen) => screen.tag === tag)?.owner?.name ?? ''
  return (
    <div role="status" className="coated">
      <p className="said">{words.done(coated.coated.length, dry, dayWords(coated.goodUntil))}</p>
      {coated.not.map(({ tag, why }) => (
        <p key={tag}>{words.not(tag, why)}</p>
      ))}
      {coated.coated.length > 0 && (
        <>
          <ul className="coated-list">
            {coated.coated.map((tag) => (
              <li key={tag}>
                <span className="screen-line-tag">{tag}</span> {ownerOf(tag)}
              </li>
            ))}
          </ul>
          <div className="entry-acts">
            <a href={`${PATHS.screenLabels}?${query.toString()}`} className="second-act">
              <span>{words.slips}</span>
            </a>
            <SecondAct onPress={() => print()}>{words.printList}</SecondAct>
            <Link to={`${ROUTES.screens}?for=dry`} className="second-act">
              <span>{words.felt}</span>
            </Link>
          </div>
        </>
      )}
    </div>
  )
}
