import { type ReactNode, useState } from 'react'
import type { Inspection } from '../../api/photos.ts'
import '../signs/woodFrame.css'
import { CHECK_WORDS } from './checkWords.ts'
import { reachMm } from './faultGroups.ts'

type Look = keyof typeof CHECK_WORDS.looks

const LOOKS = ['screen', 'film', 'both'] as const satisfies readonly Look[]

/** Photo and film over one another in a frame, with a ring round each place. */
export function CheckPicture({
  inspection,
  focused,
}: Readonly<{
  inspection: Inspection
  /** The number of the finding that is looked at. */
  focused: number | null
}>): ReactNode {
  const [look, setLook] = useState<Look>('screen')
  const { screenPicture, filmPicture, findings } = inspection
  const says = CHECK_WORDS.picture(CHECK_WORDS.pictureOf[look], CHECK_WORDS.places(findings.length))
  return (
    <figure className="check-picture">
      <div className="wood-frame check-frame">
        <div className={`check-stage check-look-${look}`} role="img" aria-label={says}>
          <img className="check-screen" src={screenPicture} alt="" />
          <img className="check-film" src={filmPicture} alt="" />
          {findings.map((place) => (
            <Ring
              key={place.number}
              isFocused={place.number === focused}
              place={place}
              film={inspection}
            />
          ))}
        </div>
      </div>
      <figcaption className="check-under">
        <span>{CHECK_WORDS.straightened}</span>
        <span className="check-looks" role="group" aria-label={CHECK_WORDS.looksLabel}>
          {LOOKS.map((each) => (
            <button
              key={each}
              type="button"
              aria-pressed={each === look}
              onClick={() => setLook(each)}
            >
              <span>{CHECK_WORDS.looks[each]}</span>
            </button>
          ))}
        </span>
      </figcaption>
    </figure>
  )
}

/** A ring stands off what it shows by this share of its size. */
const OFF = 0.5

function Ring({
  isFocused,
  place,
  film,
}: Readonly<{
  isFocused: boolean
  place: Inspection['findings'][number]
  film: Pick<Inspection, 'widthMm' | 'heightMm'>
}>): ReactNode {
  const share = (mm: number, whole: number): string => `${(100 * mm) / whole}%`
  const acrossMm = (1 + OFF) * reachMm(place)
  return (
    <span
      className={isFocused ? 'check-ring check-ring-focused' : 'check-ring'}
      style={{
        left: share(place.xMm, film.widthMm),
        top: share(place.yMm, film.heightMm),
        width: share(acrossMm, film.widthMm),
        height: share(acrossMm, film.heightMm),
      }}
    >
      <b>{place.number}</b>
    </span>
  )
}
