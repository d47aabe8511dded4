import { lazy, type ReactNode, Suspense, useId, useState } from 'react'
import type { GlassPlace } from './GlassPlace.tsx'
import { GLASS_WORDS } from './glassWords.ts'

const GlassPlaceLater = lazy(async () => ({
  default: (await import('./GlassPlace.tsx')).GlassPlace,
}))

/** A place on the glass, folded away while it is the middle, as it mostly is. */
export function OnGlass({
  title,
  ...place
}: Readonly<{ title: string }> & Parameters<typeof GlassPlace>[0]): ReactNode {
  const [isOpen, setOpen] = useState(place.place !== null)
  const id = useId()
  return (
    <div className="unfolding">
      <button
        type="button"
        className="second-act"
        aria-expanded={isOpen}
        aria-controls={id}
        onClick={() => setOpen(!isOpen)}
      >
        <span>{title}</span>
      </button>
      <div id={id} className="unfolded" hidden={!isOpen}>
        {isOpen && (
          <Suspense fallback={<p className="small">{GLASS_WORDS.working}</p>}>
            <GlassPlaceLater {...place} />
          </Suspense>
        )}
      </div>
    </div>
  )
}
