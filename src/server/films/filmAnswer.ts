import type { FilmByPhoto, Film as FilmTold } from '../../api/films.ts'
import type { Film } from '../../store/films.ts'
import { MARKS_ABOVE } from '../../workflow/watchStencil.ts'
import type { Told } from '../http/route.ts'
import type { FilmJobs } from '../jobs/filmJobs.ts'
import { marksOf } from './filmMarks.ts'

/** A film as the contract tells it. */
export function filmAnswer(
  film: Film,
  { jobs, isDemo }: Readonly<{ jobs: Pick<FilmJobs, 'progress'>; isDemo: boolean }>,
): Told<FilmTold> {
  const { id, name, baseId, mediumId, faintPrints } = film
  const { widthMm, heightMm, pixelUm } = jobs.progress(id)?.size ?? film
  const marks = marksOf(film)
  const faint = marks?.findings.underdrawing ?? null
  const paleBelow = faint?.paleBelow ?? MARKS_ABOVE
  return {
    kind: 'film',
    id,
    name,
    demo: isDemo,
    ...standing(film, jobs),
    message: film.refusal,
    warnings: marks?.warnings ?? [],
    widthMm,
    heightMm,
    pixelUm,
    base: baseId,
    medium: mediumId,
    byPhoto: film.byPhoto as unknown as FilmByPhoto | null,
    marksAbove: faintPrints === null ? null : faintPrints ? MARKS_ABOVE : paleBelow,
    underdrawing: faint && { ...faint, answer: answerOf(faintPrints) },
  }
}

function answerOf(faintPrints: boolean | null): 'prints' | 'stays shut' | null {
  if (faintPrints === null) return null
  return faintPrints ? 'prints' : 'stays shut'
}

function standing(
  { id, status }: Film,
  jobs: Pick<FilmJobs, 'progress'>,
): Pick<FilmTold, 'status' | 'progressShare'> {
  if (status === 'ready') return { status, progressShare: 1 }
  if (status === 'refused') return { status: 'failed', progressShare: 0 }
  const progress = jobs.progress(id)
  return progress === null
    ? { status: 'waiting', progressShare: 0 }
    : { status: 'reading', progressShare: progress.share }
}
