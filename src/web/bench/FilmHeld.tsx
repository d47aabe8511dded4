import type { ReactNode } from 'react'
import './benchPicture.css'
import { BENCH_WORDS } from './benchWords.ts'
import type { HeldFilm } from './useHeldFilm.ts'

/** The film as the screen should look, with what opens last ringed. */
export function FilmHeld({
  held: { url, widthPx, heightPx, ring },
  subject,
  step,
}: Readonly<{ held: HeldFilm; subject: string; step: string }>): ReactNode {
  const how = step === 'film' ? BENCH_WORDS.lies : BENCH_WORDS.held
  const says = ring === null ? how : `${how} ${BENCH_WORDS.ringed}`
  return (
    <figure className="bench-picture" data-step={step}>
      <div
        className="bench-film"
        role="img"
        aria-label={BENCH_WORDS.filmOf(subject)}
        style={{
          aspectRatio: `${widthPx} / ${heightPx}`,
          width: `min(100%, calc(var(--bench-film) * ${widthPx / heightPx}))`,
        }}
      >
        <div className="bench-marks" style={{ maskImage: `url(${url})` }} />
        {ring !== null && (
          <svg viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
            <ellipse
              cx={100 * (ring.left + ring.width / 2)}
              cy={100 * (ring.top + ring.height / 2)}
              rx={50 * ring.width}
              ry={50 * ring.height}
            />
          </svg>
        )}
      </div>
      <figcaption>{says}</figcaption>
    </figure>
  )
}
