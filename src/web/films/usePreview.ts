import { useEffect, useRef, useState } from 'react'
import type {
  Dots,
  InksAsk,
  InksFound,
  LoupeAsk,
  Preview,
  PreviewAsk,
  PreviewWord,
} from './previewAsk.ts'

type WithoutNumber<Ask> = Omit<Ask, 'kind' | 'number'>
export type Wanted = Readonly<{
  preview: WithoutNumber<PreviewAsk> | null
  loupe: WithoutNumber<LoupeAsk> | null
  /** Null: nobody wonders which inks. */
  inks: WithoutNumber<InksAsk> | null
}>

export type Seen = Readonly<{
  preview: Preview | null
  dots: Dots | null
  /** Null: not asked for, or being looked for. */
  inks: InksFound | null
  /** Why the newest change shows nothing; without a sentence there is no connection. */
  trouble: Readonly<{ message: string | null }> | null
  /** What is shown is of an earlier plan. */
  isOld: boolean
}>

const NOTHING: Seen = { preview: null, dots: null, inks: null, trouble: null, isOld: false }

/** A preview of films and what lies under the loupe, kept up with what is wanted by a worker. */
export function usePreview({ preview, loupe, inks }: Wanted): Seen {
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
    line.current?.want({ kind: 'preview', ...preview })
  }, [preview])
  useEffect(() => {
    if (loupe !== null) line.current?.want({ kind: 'loupe', ...loupe })
  }, [loupe])
  useEffect(() => {
    setSeen((before) => ({ ...before, inks: null }))
    if (inks !== null) line.current?.want({ kind: 'inks', ...inks })
  }, [inks])
  return seen
}

type Ask = Omit<PreviewAsk, 'number'> | Omit<LoupeAsk, 'number'> | Omit<InksAsk, 'number'>
type Line = Readonly<{ want: (ask: Ask) => void; close: () => void }>

/** One question at a time; of what is wanted meanwhile only the newest of each kind is asked. */
function lineTo(tell: (next: (before: Seen) => Seen) => void): Line {
  const worker = new Worker(new URL('./previewWorker.ts', import.meta.url), { type: 'module' })
  const waiting = new Map<Ask['kind'], Ask>()
  let asked = 0
  let isBusy = false
  const next = (): void => {
    const [ask] = waiting.values()
    if (isBusy || ask === undefined) return
    waiting.delete(ask.kind)
    isBusy = true
    asked += 1
    worker.postMessage({ ...ask, number: asked }, [])
  }
  worker.addEventListener('message', ({ data }: MessageEvent<PreviewWord>) => {
    isBusy = false
    const isOld = waiting.has('preview')
    switch (data.kind) {
      case 'preview': {
        const { preview } = data
        tell((before) => ({ ...before, preview, trouble: null, isOld }))
        break
      }
      case 'loupe':
        tell((before) => ({ ...before, dots: data.dots }))
        break
      case 'inks':
        tell((before) => ({ ...before, inks: data.found }))
        break
      case 'failed':
        tell((before) => ({ ...before, trouble: { message: data.message }, isOld }))
    }
    next()
  })
  return {
    want: (ask) => {
      waiting.set(ask.kind, ask)
      next()
    },
    close: () => worker.terminate(),
  }
}
