import type { ReactNode } from 'react'
import '../signs/woodFrame.css'
import { LayerPicture } from '../ticket/LayerPicture.tsx'
import { SCREENS_WORDS } from './screensWords.ts'

/** Open mesh against the light: the yellow of the signs. */
const OPEN = { id: '', name: '', lab: [78.6, 13, 76], opacity: 1 } as const
const WIDTH_PX = 640

/** The stencil as one sees it against the light: open where the film was covered. */
export function StencilPicture({
  film,
  says,
}: Readonly<{ film: string; says: string }>): ReactNode {
  return (
    <div className="wood-frame stencil" role="img" aria-label={SCREENS_WORDS.picture(says)}>
      <div className="stencil-ground">
        <LayerPicture film={film} ink={{ ...OPEN, lab: [...OPEN.lab] }} widthPx={WIDTH_PX} />
      </div>
    </div>
  )
}
