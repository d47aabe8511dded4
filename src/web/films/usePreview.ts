import { useEffect, useRef, useState } from 'react'
import type {
  ArtworkAsk,
  Dots,
  InksAsk,
  InksFound,
  Looked,
  LoupeAsk,
  Preview,
  PreviewAsk,
  PreviewSent,
  PreviewWord,
} from './previewAsk.ts'

type WithoutNumber<Ask> = Omit<Ask, 'kind' | 'number' | 'isSketch'>
export type Wanted = Readonly<{
  /** The artwork itself; null: nobody looks at it. */
  artwork: Looked | null
  preview: WithoutNumber<PreviewAsk> | null
  loupe: WithoutNumber<LoupeAsk> | null
  /** Null: nobody wonders which inks. */
  inks: WithoutNumber<InksAsk> | null
}>

export type Seen = Readonly<{
  preview: Preview | null
  dots: Dots | null
  artwork: ImageBitmap | null
  /** Null: not asked for, or being looked for. */
  inks: InksFound | null
  /** Why the newest change shows nothing; without a sentence there is no connection. */
  trouble: Readonly<{ message: string | null }> | null
  /** What is shown is of an earlier plan. */
  isOld: boolean
}>

const NOTHING: Seen = {
  preview: null,
  dots: null,
  artwork: null,
  inks: null,
  trouble: null,
  isOld: false,
}
/** How long after nothing could be reached it is tried again. */
const AGAIN_MS = 2000
/** Where the last preview took longer a sketch comes before the next. */
const QUICK_MS = 150

/** A preview of films and what lies under the loupe, kept up with what is wanted by a worker. */
export function usePreview({ preview, loupe, artwork, inks }: Wanted): Seen {
  const [seen, setSeen] = useState<Seen>(NOTHING)
  const line = useRef<Line | null>(null)
  useEffect(() => {
    const own = lineTo(setSeen)
    line.current = own
    return () => own.close()
  }, [])
  useEffect(() => {
    if (preview === null) return
    setSeen((before) => ({ ...before, isOld: true }))
    line.current?.want({ kind: 'preview', ...preview, isSketch: false })
  }, [preview])
  useEffect(() => {
    if (loupe !== null) line.current?.want({ kind: 'loupe', ...loupe })
  }, [loupe])
  useEffect(() => {
    if (artwork !== null) line.current?.want({ kind: 'artwork', ...artwork })
  }, [artwork])
  useEffect(() => {
    setSeen((before) => ({ ...before, inks: null }))
    if (inks !== null) line.current?.want({ kind: 'inks', ...inks })
  }, [inks])
  return seen
}

type Ask =
  | Omit<PreviewAsk, 'number'>
  | Omit<LoupeAsk, 'number'>
  | Omit<InksAsk, 'number'>
  | Omit<ArtworkAsk, 'number'>
type Line = Readonly<{ want: (ask: Ask) => void; close: () => void }>

/**
 * One question at a time; of what is wanted meanwhile only the newest of each kind is asked. What
 * could not be reached is asked again, with a new worker where this one did not come up.
 */
function lineTo(tell: (next: (before: Seen) => Seen) => void): Line {
  const waiting = new Map<Ask['kind'], Ask>()
  let [worker, asked] = [opened(), 0]
  // the first one takes long everywhere
  let [tookMs, sketchMs] = [Number.POSITIVE_INFINITY, 0]
  let pending: Ask | null = null
  let pause: ReturnType<typeof setTimeout> | undefined
  const next = (): void => {
    // the print before what is looked at closely
    const ask = waiting.get('preview') ?? waiting.values().next().value
    if (pending !== null || ask === undefined) return
    waiting.delete(ask.kind)
    pending = ask
    asked += 1
    worker.postMessage({ ...ask, number: asked }, [])
  }
  const again = (): void => {
    const ask = pending
    pause = setTimeout(() => {
      pending = null
      if (ask !== null && !waiting.has(ask.kind)) waiting.set(ask.kind, ask)
      next()
    }, AGAIN_MS)
  }
  const failed = (message: string | null): void =>
    tell((before) => ({ ...before, trouble: { message }, isOld: waiting.has('preview') }))
  function opened(): Worker {
    const own = new Worker(new URL('./previewWorker.ts', import.meta.url), { type: 'module' })
    own.addEventListener('message', ({ data }: MessageEvent<PreviewWord>) => {
      // after a sketch the whole, where nothing newer is wanted
      if (pending?.kind === 'preview' && data.kind === 'preview') {
        // what a sketch worked out the whole needs not
        const isSketch = data.preview.findings === null
        if (!isSketch) tookMs = data.tookMs + sketchMs
        else if (!waiting.has('preview')) waiting.set('preview', { ...pending, isSketch: false })
        sketchMs = isSketch ? data.tookMs : 0
      }
      if (data.kind === 'failed') failed(data.message)
      else tell((before) => ({ ...before, ...told(data, before, waiting.has('preview')) }))
      if (data.kind === 'failed' && data.message === null) {
        again()
        return
      }
      pending = null
      next()
    })
    own.addEventListener('error', () => {
      own.terminate()
      failed(null)
      worker = opened()
      again()
    })
    return own
  }
  return {
    want: (ask) => {
      const isSketch = ask.kind === 'preview' && tookMs > QUICK_MS
      waiting.set(ask.kind, isSketch ? { ...ask, isSketch } : ask)
      next()
    },
    close: () => {
      clearTimeout(pause)
      worker.terminate()
    },
  }
}

function told(
  word: Exclude<PreviewWord, { kind: 'failed' }>,
  before: Seen,
  isOld: boolean,
): Partial<Seen> {
  switch (word.kind) {
    case 'preview': {
      const stages = word.preview.stages ?? before.preview?.stages ?? []
      const findings = word.preview.findings ?? findingsStill(word.preview, before.preview)
      return { preview: { ...word.preview, stages, findings }, trouble: null, isOld }
    }
    case 'loupe':
      return { dots: word.dots }
    case 'inks':
      return { inks: word.found }
    case 'artwork':
      return { artwork: word.seen }
  }
}

/** Until somebody has looked for them anew; those of other films say nothing about these. */
function findingsStill(sent: PreviewSent, before: Preview | null): Preview['findings'] {
  return before?.plates.length === sent.plates.length ? before.findings : []
}
