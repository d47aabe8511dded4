import { parentPort, workerData } from 'node:worker_threads'
import { type FailureKind, isFailure } from '../../core/failure.ts'
import type { FilmPlan } from '../../core/separation/plan.ts'
import { openArtwork } from '../../decode/artwork.ts'
import { writeInto } from '../../decode/spool.ts'
import type { FilmSize } from '../../workflow/makeFilms/filmSize.ts'
import { platesOf } from '../../workflow/makeFilms/plates.ts'
import {
  type FilmRowsRange,
  type PartCounts,
  screenPart,
} from '../../workflow/makeFilms/screenPlates.ts'

export type PartAsked = Readonly<{
  path: string
  plan: FilmPlan
  size: FilmSize
  rows: FilmRowsRange
  /** Of open files, one a plate, where its bits go. */
  descriptors: readonly number[]
}>

export type PartSaid =
  | Readonly<{ kind: 'share'; share: number }>
  | Readonly<{ kind: 'done'; counts: PartCounts; bytes: readonly number[] }>
  | Readonly<{
      kind: 'failed'
      failure: Readonly<{ kind: FailureKind; message: string; field?: string }>
    }>

const say = (said: PartSaid): void => {
  parentPort?.postMessage(said, [])
}

async function screened({ path, plan, size, rows, descriptors }: PartAsked): Promise<void> {
  const opened = await openArtwork(path)
  try {
    const artwork = await opened.samples({
      ...size,
      keepsCmyk: plan.mode === 'process',
      inks: plan.inks.map(({ name }) => name),
    })
    const bytes = descriptors.map(() => 0)
    const spools = descriptors.map((descriptor, plate) => ({
      write: async (bits: Uint8Array): Promise<void> => {
        const at = bytes[plate] ?? 0
        writeInto(descriptor, bits, at)
        bytes[plate] = at + bits.length
        await Promise.resolve()
      },
    }))
    const counts = await screenPart(platesOf(artwork, plan, size), {
      size,
      rows,
      spools,
      onShare: (share) => say({ kind: 'share', share }),
    })
    say({ kind: 'done', counts, bytes })
  } finally {
    await opened.close()
  }
}

await screened(workerData as PartAsked).catch((cause: unknown) => {
  if (!isFailure(cause)) throw cause
  const { kind, message, field } = cause
  say({ kind: 'failed', failure: { kind, message, ...(field === undefined ? {} : { field }) } })
})
