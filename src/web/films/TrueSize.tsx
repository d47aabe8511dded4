import { type ReactNode, useEffect, useId, useRef, useState } from 'react'
import type { FilmSize } from '../../workflow/makeFilms/filmSize.ts'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { Words } from './Figure.tsx'
import { percentText } from './filmsWords.ts'
import { MeasureScreen } from './MeasureScreen.tsx'
import type { Preview } from './previewAsk.ts'
import { PRINTS_WORDS } from './printsWords.ts'
import { useScreenScale } from './screenScale.ts'
import './trueSize.css'

const { proof: says } = PRINTS_WORDS

type TrueSizeProps = Readonly<{
  preview: Preview
  /** Null: not yet painted. */
  artwork: ImageBitmap | null
  size: FilmSize
  /** The page to print, once films were made; of an earlier plan or not. */
  pdf: string | null
  isOpen: boolean
  onOpen: (isOpen: boolean) => void
}>

/** The print as large as it will be, with the artwork beside it. */
export function TrueSize(props: TrueSizeProps): ReactNode {
  const { isOpen, onOpen } = props
  const id = useId()
  return (
    <section className="true-size" aria-label={says.title}>
      <SecondAct expanded={isOpen} controls={id} onPress={() => onOpen(!isOpen)}>
        {isOpen ? says.fold : says.unfold}
      </SecondAct>
      <div id={id} hidden={!isOpen}>
        {isOpen && <Shown {...props} />}
      </div>
    </section>
  )
}

type View = 'print' | 'artwork' | 'both'

function Shown({ preview, artwork, size, pdf }: TrueSizeProps): ReactNode {
  const units = useUnits()
  const scale = useScreenScale()
  const [view, setView] = useState<View>('both')
  const [half, setHalf] = useState(0.5)
  const [trial, setTrial] = useState<number | null>(null)
  const canvas = usePainted(
    { ...preview, artwork },
    view === 'both' ? half : view === 'artwork' ? 1 : 0,
  )
  const perMm = trial ?? scale.perMm
  const sides = [lengthText(size.widthMm, units), lengthText(size.heightMm, units)] as const
  return (
    <>
      <p>
        {says.shows}
        <Words
          label={says.view}
          value={view}
          words={says.views}
          onChoice={(next) => setView(next as View)}
        />
        {says.at(...sides)}
      </p>
      {view === 'both' && (
        <input
          type="range"
          className="true-half"
          min={0}
          max={1}
          step={0.01}
          value={half}
          aria-label={says.half}
          aria-valuetext={says.halfAt(percentText(half))}
          onChange={({ target }) => setHalf(Number(target.value))}
        />
      )}
      {/* panned by its own bars, by touch, and by arrows */}
      <section className="true-pan" tabIndex={0} aria-label={says.pan}>
        <canvas
          role="img"
          aria-label={says.picture(...sides)}
          ref={(sheet) => {
            canvas.current = sheet
            sheet?.style.setProperty('--wide', `${size.widthMm * perMm}px`)
          }}
        />
      </section>
      <MeasureScreen scale={scale} trial={trial} onTrial={setTrial} />
      <p className="small">{says.estimate}</p>
      {pdf === null ? (
        <p className="small">{says.pdfLater}</p>
      ) : (
        <p>
          <a className="second-act" href={pdf}>
            <span>{says.pdf}</span>
          </a>{' '}
          <span className="small">{says.pdfSays}</span>
        </p>
      )}
    </>
  )
}

/** The artwork as far as a share of the width, the print from there on. */
function usePainted(
  { stages, artwork, widthPx, heightPx }: Preview & Readonly<{ artwork: ImageBitmap | null }>,
  half: number,
): React.RefObject<HTMLCanvasElement | null> {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const sheet = canvas.current
    const brush = sheet?.getContext('2d') ?? null
    const print = stages.at(-1)
    if (sheet === null || brush === null || print === undefined) return
    sheet.width = widthPx
    sheet.height = heightPx
    brush.drawImage(print, 0, 0, widthPx, heightPx)
    const wide = Math.round(half * widthPx)
    if (wide > 0 && artwork !== null) {
      brush.drawImage(artwork, 0, 0, wide, heightPx, 0, 0, wide, heightPx)
    }
    if (wide > 0 && wide < widthPx) {
      brush.fillStyle = getComputedStyle(sheet).color
      brush.fillRect(wide - 1, 0, 2, heightPx)
    }
  }, [stages, artwork, widthPx, heightPx, half])
  return canvas
}
