import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react'
import { PLAN_WORDS } from './planWords.ts'

const WORDS = PLAN_WORDS.colour
/** A photo is looked at so wide; colours are means over a square of it. */
const WIDTH_PX = 640
const HALF_PX = 6
const STEP_PX = 8

type Rgb = [number, number, number]
/** Mean stored sRGB 0 … 1 at the two places that were chosen. */
export type Picked = Readonly<{ card: Rgb | null; patch: Rgb | null }>
export const NONE_PICKED: Picked = { card: null, patch: null }
type At = Readonly<{ x: number; y: number }>

/** A photo of the print beside a grey card; it stays on this device, only two colours are sent. */
export function ColourPhoto({
  picked,
  onPicked,
}: Readonly<{ picked: Picked; onPicked: (picked: Picked) => void }>): ReactNode {
  const id = useId()
  const canvas = useRef<HTMLCanvasElement>(null)
  const [photo, setPhoto] = useState<ImageBitmap | null>(null)
  const [at, setAt] = useState<At>({ x: WIDTH_PX / 2, y: WIDTH_PX / 3 })
  const [isUnreadable, setUnreadable] = useState(false)
  const heightPx = photo === null ? 0 : Math.round((photo.height * WIDTH_PX) / photo.width)
  useEffect(() => {
    const brush = canvas.current?.getContext('2d', { willReadFrequently: true }) ?? null
    if (brush === null || photo === null) return
    brush.drawImage(photo, 0, 0, WIDTH_PX, heightPx)
    const side = 2 * HALF_PX + 1
    for (const [inset, colour] of [
      [0, '#ffffff'],
      [1, '#000000'],
    ] as const) {
      brush.strokeStyle = colour
      brush.strokeRect(
        at.x - HALF_PX - 2 - inset,
        at.y - HALF_PX - 2 - inset,
        side + 4 + 2 * inset,
        side + 4 + 2 * inset,
      )
    }
  }, [photo, heightPx, at])
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return
    const opened = await createImageBitmap(file).catch(() => null)
    setUnreadable(opened === null)
    setPhoto(opened)
    onPicked(NONE_PICKED)
  }
  const choose = (place: At): void => {
    const brush = canvas.current?.getContext('2d', { willReadFrequently: true }) ?? null
    if (brush === null || photo === null) return
    setAt(place)
    brush.drawImage(photo, 0, 0, WIDTH_PX, heightPx)
    const colour = meanAt(brush, place)
    onPicked(
      picked.card === null || picked.patch !== null
        ? { card: colour, patch: null }
        : { ...picked, patch: colour },
    )
  }
  const key = (event: KeyboardEvent): void => {
    const way = WAYS[event.key]
    if (way === undefined && event.key !== 'Enter') return
    event.preventDefault()
    if (way === undefined) choose(at)
    else
      setAt({
        x: Math.min(WIDTH_PX - 1, Math.max(0, at.x + way[0] * STEP_PX)),
        y: Math.min(heightPx - 1, Math.max(0, at.y + way[1] * STEP_PX)),
      })
  }
  const asks =
    picked.card === null
      ? WORDS.pick.card
      : picked.patch === null
        ? WORDS.pick.patch
        : WORDS.pick.done
  return (
    <>
      <div className="entry">
        <label htmlFor={id}>{WORDS.take}</label>
        <input
          id={id}
          className="colour-file"
          type="file"
          accept="image/*"
          onChange={(event) => void take(event.target.files?.[0])}
        />
        {isUnreadable && <p className="entry-wrong">{WORDS.unreadable}</p>}
      </div>
      {photo !== null && (
        <>
          <p role="status">{asks}</p>
          <canvas
            ref={canvas}
            className="colour-photo"
            width={WIDTH_PX}
            height={heightPx}
            role="application"
            aria-label={asks}
            // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
            tabIndex={0}
            onKeyDown={key}
            onClick={({ currentTarget, nativeEvent }) => {
              const scale = WIDTH_PX / currentTarget.clientWidth
              choose({
                x: Math.round(nativeEvent.offsetX * scale),
                y: Math.round(nativeEvent.offsetY * scale),
              })
            }}
          />
          <p className="colour-swatches">
            {(['card', 'patch'] as const).map((which) => (
              <Swatch key={which} name={WORDS.seen[which]} colour={picked[which]} />
            ))}
          </p>
        </>
      )}
    </>
  )
}

function Swatch({ name, colour }: Readonly<{ name: string; colour: Rgb | null }>): ReactNode {
  if (colour === null) return null
  const [red, green, blue] = colour.map((channel) => Math.round(255 * channel))
  return (
    <span>
      <span
        className="colour-swatch"
        style={{ background: `rgb(${red} ${green} ${blue})` }}
        aria-hidden="true"
      />
      {name}
    </span>
  )
}

const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/** The mean of stored values over a square: small enough to be even. */
function meanAt(brush: CanvasRenderingContext2D, { x, y }: At): Rgb {
  const side = 2 * HALF_PX + 1
  const { data } = brush.getImageData(x - HALF_PX, y - HALF_PX, side, side)
  const sum: Rgb = [0, 0, 0]
  let count = 0
  for (let at = 0; at < data.length; at += 4) {
    if (data[at + 3] === 0) continue // beyond the photo's edge
    count++
    for (const channel of [0, 1, 2] as const) sum[channel] += (data[at + channel] ?? 0) / 255
  }
  const of = Math.max(1, count)
  return [sum[0] / of, sum[1] / of, sum[2] / of]
}
