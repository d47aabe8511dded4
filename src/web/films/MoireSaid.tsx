import { type ReactNode, useEffect, useRef } from 'react'
import { dotStrength, fabricStrength } from '../../core/halftone/gratings.ts'
import type { Beat, Moire } from '../../core/halftone/moire.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import type { PlanFile } from '../../workflow/makeFilms/usualPlan.ts'
import { lengthText } from '../film/findingSays.ts'
import { useUnits } from '../shop.tsx'
import { SecondAct } from '../signs/Button.tsx'
import { FILMS_WORDS } from './filmsWords.ts'
import { inksOf, withInkChanged } from './planFile.ts'
import type { PlateSeen } from './previewAsk.ts'

type Worst = Readonly<{ plate: PlateSeen; at: number; moire: Moire }>

/** The plate whose dots and threads show the strongest pattern. */
function worstOf(plates: readonly PlateSeen[]): Worst | null {
  const all = plates.flatMap((plate, at) =>
    plate.moire === null ? [] : [{ plate, at, moire: plate.moire }],
  )
  const [worst] = all.toSorted((one, other) => seenIn(other) - seenIn(one))
  return worst ?? null
}

function seenIn({ moire: { beats } }: Worst): number {
  return beats[0]?.visibility ?? 0
}

/** What threads and dots make together, in words and as it would show, and the better angle by one tap. */
export function MoireSaid({
  plates,
  plan,
  file,
  onPlan,
}: Readonly<{
  plates: readonly PlateSeen[]
  plan: FilmPlan
  file: PlanFile
  onPlan: (file: PlanFile) => void
}>): ReactNode {
  const units = useUnits()
  const worst = plan.mode === 'line' ? null : worstOf(plates)
  if (worst === null || plan.halftone?.kind !== 'dot') {
    return (
      <div className="films-said">
        <h2>{FILMS_WORDS.moire.noDots}</h2>
      </div>
    )
  }
  const { plate, at, moire: found } = worst
  const { verdict, beats, advice } = found
  const [beat] = beats
  const { rulingPerCm } = plan.halftone
  const ink = plan.underbase === null ? at : at - 1
  const angleDeg = plan.inks[ink]?.angleDeg ?? plan.halftone.angleDeg
  const isBetter = advice.visibility < (beat?.visibility ?? 0) - 1e-9
  const turns = isBetter && (advice.angleDeg !== angleDeg || advice.rulingPerCm !== rulingPerCm)
  const take = (): void => {
    const turned =
      inksOf(file).length > ink && ink >= 0
        ? withInkChanged(file, ink, { angleDeg: advice.angleDeg })
        : file
    const halftone = {
      ...(file['halftone'] as object | null),
      ...plan.halftone,
      rulingPerCm: advice.rulingPerCm,
      ...(turned === file ? { angleDeg: advice.angleDeg } : {}),
    }
    onPlan({ ...turned, halftone })
  }
  return (
    <div className="films-said">
      <h2>{FILMS_WORDS.moire[verdict]}</h2>
      {beat !== undefined && (
        <p>
          {beat.periodMm === null
            ? FILMS_WORDS.beatZero(plate.name)
            : FILMS_WORDS.beat(
                plate.name,
                lengthText(beat.periodMm, units),
                lengthText(10 / rulingPerCm, units),
              )}
        </p>
      )}
      {verdict !== 'none to be seen' && <AsItShows beats={beats} />}
      {verdict !== 'none to be seen' && turns && (
        <SecondAct onPress={take}>
          {advice.rulingPerCm === rulingPerCm
            ? FILMS_WORDS.turnAct(plate.name, String(advice.angleDeg))
            : FILMS_WORDS.turnRuleAct(
                plate.name,
                String(advice.angleDeg),
                String(advice.rulingPerCm),
              )}
        </SecondAct>
      )}
    </div>
  )
}

const [WIDE_PX, HIGH_PX] = [360, 90]
/** A pixel of a style sheet is a 96th of an inch: the picture is as large as the print. */
const PX_PER_MM = 96 / 25.4
/** Finer patterns than this cannot be drawn here, nor are they seen. */
const FINEST_PER_CM = 15
const MOST_BEATS = 4

/** A flat tint with its patterns, at their true size and contrast. */
function AsItShows({ beats }: Readonly<{ beats: readonly Beat[] }>): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const brush = canvas.current?.getContext('2d') ?? null
    if (brush === null) return
    const image = brush.createImageData(WIDE_PX, HIGH_PX)
    const seen = beats.filter(({ perCm }) => perCm <= FINEST_PER_CM).slice(0, MOST_BEATS)
    for (let y = 0, at = 0; y < HIGH_PX; y++) {
      for (let x = 0; x < WIDE_PX; x++, at += 4) {
        const light = seen.reduce((sum, beat) => sum + wave(beat, x, y), 0.5)
        const level = 255 * Math.min(1, Math.max(0, light))
        image.data[at] = level
        image.data[at + 1] = level
        image.data[at + 2] = level
        image.data[at + 3] = 255
      }
    }
    brush.putImageData(image, 0, 0)
  }, [beats])
  return (
    <figure className="moire-shown">
      <canvas ref={canvas} width={WIDE_PX} height={HIGH_PX} aria-hidden="true" />
      <figcaption className="small">{FILMS_WORDS.atArm}</figcaption>
    </figure>
  )
}

function wave({ perCm, angleDeg, order: [i, j, k, l] }: Beat, x: number, y: number): number {
  const turn = (angleDeg * Math.PI) / 180
  const perPx = perCm / 10 / PX_PER_MM
  return (
    dotStrength(i, j) *
    fabricStrength(k, l) *
    Math.cos(2 * Math.PI * perPx * (x * Math.cos(turn) - y * Math.sin(turn)))
  )
}
