import { parentPort } from 'node:worker_threads'
import type { WrappedPdfiumModule } from '@embedpdf/pdfium'
import type { OwnInk } from './artwork.ts'
import { openPdfPage, type PdfBand, type PdfPage, startPdfLibrary } from './pdfPage.ts'
import { holdsAny, userUnitOf } from './pdfUserUnit.ts'

/** What a thread is asked about one PDF at a time, each to be answered before the next. */
export type PdfAsk =
  | Readonly<{ ask: 'start' }>
  | Readonly<{ ask: 'open'; bytes: Uint8Array }>
  | Readonly<{ ask: 'part'; inks: readonly string[]; keepsCmyk: boolean }>
  | (PdfBand & Readonly<{ ask: 'band'; picture: number }>)
  | Readonly<{ ask: 'close' }>

export type PdfFacts = Pick<
  PdfPage,
  'widthMm' | 'heightMm' | 'pages' | 'missingFonts' | 'producer' | 'pictureDpi'
> &
  Readonly<{ ownInks: readonly OwnInk[] }>

export type PdfAnswer =
  | Readonly<{ kind: 'started' }>
  | Readonly<{ kind: 'opened'; facts: PdfFacts }>
  /** How many inks pass through: pictures 1 … inks; 0 is the rest. */
  | Readonly<{ kind: 'parted'; inks: number }>
  | Readonly<{ kind: 'band'; samples: Uint8Array<ArrayBuffer> }>
  | Readonly<{ kind: 'closed'; memoryBytes: number }>
  /** What is wrong with the file, and what to do. */
  | Readonly<{ kind: 'refused'; what: string }>
  | Readonly<{ kind: 'failed' }>

const PROCESS = [0, 1, 2, 3] as const

/** A page that wants more is refused rather than that others go without. */
const MOST_MEMORY_BYTES = 768 * 2 ** 20
const PAGE_BYTES = 2 ** 16
limitMemory()

let library: WrappedPdfiumModule | null = null
let bytes: Uint8Array = new Uint8Array(0)
let pages: PdfPage[] = []

parentPort?.on('message', (asked: PdfAsk) => {
  void answerTo(asked)
    .catch((): PdfAnswer => ({ kind: 'failed' }))
    .then((answer) => {
      parentPort?.postMessage(answer, answer.kind === 'band' ? [answer.samples.buffer] : [])
    })
})

async function answerTo(asked: PdfAsk): Promise<PdfAnswer> {
  library ??= await startPdfLibrary()
  switch (asked.ask) {
    case 'start':
      return { kind: 'started' }
    case 'open': {
      ;({ bytes } = asked)
      const page = openPdfPage(library, bytes)
      if (typeof page === 'string') return { kind: 'refused', what: page }
      pages = [page]
      const unit = await userUnitOf(bytes)
      const { pages: count, missingFonts, producer, pictureDpi } = page
      const [widthMm, heightMm] = [page.widthMm * unit, page.heightMm * unit]
      const ownInks = await inksOf(bytes, library)
      const of = { widthMm, heightMm, pages: count, missingFonts, producer, pictureDpi, ownInks }
      return { kind: 'opened', facts: of }
    }
    case 'part':
      return { kind: 'parted', inks: await part(asked, library) }
    case 'band': {
      const page = pages[asked.picture]
      if (page === undefined) return { kind: 'failed' }
      const samples = page.band(asked)
      return { kind: 'band', samples: asked.picture === 0 ? samples : greyOf(samples) }
    }
    case 'close':
      for (const page of pages) page.close()
      pages = []
      bytes = new Uint8Array(0)
      return { kind: 'closed', memoryBytes: memoryOf(library) }
  }
}

/** Opens one PDF for what is none of the inks and one for each ink; 0 where none passes through. */
async function part(
  { inks: names, keepsCmyk }: Extract<PdfAsk, { ask: 'part' }>,
  pdfs: WrappedPdfiumModule,
): Promise<number> {
  const { hasInks, inkOfPdf } = await import('./pdfInks.ts')
  const inks = names.map((name) => name.toLowerCase())
  const cmyk = keepsCmyk ? PROCESS : null
  if (cmyk === null && !(await hasInks(bytes, inks))) return 0
  const parted: PdfPage[] = []
  for (const drawn of [null, ...inks.keys()]) {
    const page = openPdfPage(pdfs, await inkOfPdf(bytes, { inks, drawn, cmyk }))
    if (typeof page === 'string') throw new RangeError(`inks: expected a page, ${page}`)
    parted.push(page)
  }
  for (const page of pages) page.close()
  pages = parted
  return inks.length
}

/** What writes files anew is fetched for those alone that may name an ink. */
async function inksOf(file: Uint8Array, pdfs: WrappedPdfiumModule): Promise<readonly OwnInk[]> {
  if (!holdsAny(file, ['/Separation', '/DeviceN', '/ObjStm'])) return []
  const { ownInksOf } = await import('./pdfOwnInks.ts')
  return ownInksOf(file, pdfs)
}

/** One of the three samples of a picture that is grey. */
function greyOf(samples: Uint8Array): Uint8Array<ArrayBuffer> {
  const grey = new Uint8Array(samples.length / 3)
  for (let at = 0; at < grey.length; at++) grey[at] = samples[3 * at] ?? 0
  return grey
}

function memoryOf(pdfs: WrappedPdfiumModule): number {
  return (pdfs.pdfium as unknown as Readonly<{ HEAPU8: Uint8Array }>).HEAPU8.length
}

type Memory = { buffer: ArrayBuffer; grow: (delta: number) => number }

/** The library grows its memory by itself and has no setting for how far. */
function limitMemory(): void {
  const { WebAssembly } = globalThis as unknown as Readonly<{
    WebAssembly: Readonly<{ Memory: Readonly<{ prototype: Memory }> }>
  }>
  const { prototype } = WebAssembly.Memory
  const { grow } = prototype
  prototype.grow = function grown(this: Memory, delta: number): number {
    if (this.buffer.byteLength + delta * PAGE_BYTES > MOST_MEMORY_BYTES) {
      throw new RangeError('delta: expected less memory')
    }
    return grow.call(this, delta)
  }
}
