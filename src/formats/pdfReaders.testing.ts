import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { init, type WrappedPdfiumModule } from '@embedpdf/pdfium'
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

/** Independent readers of PDF, for tests. */

const resolve = createRequire(import.meta.url).resolve

let pdfium: Promise<WrappedPdfiumModule> | null = null

async function startPdfium(): Promise<WrappedPdfiumModule> {
  const wasmBinary = readFileSync(resolve('@embedpdf/pdfium/pdfium.wasm')).buffer
  const started = await init({ wasmBinary })
  started.PDFiumExt_Init()
  return started
}

type Sides = Readonly<{ left: number; bottom: number; right: number; top: number }>

export type PdfiumPage = Readonly<{
  pages: number
  /** In points. */
  width: number
  height: number
  trim: Sides
  /** Grey of each pixel at the asked size, on white. */
  grey: Uint8Array
  /** Whether red, green and blue are the same everywhere. */
  neutral: boolean
}>

/** A part of a page that is drawn so large that it would be too much as a whole. */
export type PdfiumWindow = Readonly<{
  xPx: number
  yPx: number
  pageWidthPx: number
  pageHeightPx: number
}>

export async function byPdfium(
  pdf: Uint8Array,
  {
    page = 0,
    widthPx,
    heightPx,
    window = { xPx: 0, yPx: 0, pageWidthPx: widthPx, pageHeightPx: heightPx },
  }: Readonly<{ page?: number; widthPx: number; heightPx: number; window?: PdfiumWindow }>,
): Promise<PdfiumPage> {
  const { xPx, yPx, pageWidthPx, pageHeightPx } = window
  pdfium ??= startPdfium()
  const lib = await pdfium
  const heap = (): Uint8Array => (lib.pdfium as unknown as { HEAPU8: Uint8Array }).HEAPU8
  const file = lib.pdfium.wasmExports.malloc(pdf.length)
  heap().set(pdf, file)
  const document = lib.FPDF_LoadMemDocument(file, pdf.length, '')
  if (document === 0) throw new Error(`pdfium could not open it: ${lib.FPDF_GetLastError()}`)
  const opened = lib.FPDF_LoadPage(document, page)
  const bitmap = lib.FPDFBitmap_Create(widthPx, heightPx, 0)
  lib.FPDFBitmap_FillRect(bitmap, 0, 0, widthPx, heightPx, 0xffff_ffff)
  lib.FPDF_RenderPageBitmap(bitmap, opened, -xPx, -yPx, pageWidthPx, pageHeightPx, 0, 0)
  const start = lib.FPDFBitmap_GetBuffer(bitmap)
  const stride = lib.FPDFBitmap_GetStride(bitmap)
  const pixels = heap().slice(start, start + stride * heightPx)
  const grey = new Uint8Array(widthPx * heightPx)
  let neutral = true
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const at = y * stride + 4 * x
      neutral &&= pixels[at] === pixels[at + 1] && pixels[at] === pixels[at + 2]
      grey[y * widthPx + x] = pixels[at + 1] ?? 0
    }
  }
  const box = lib.pdfium.wasmExports.malloc(16)
  lib.FPDFPage_GetTrimBox(opened, box, box + 4, box + 8, box + 12)
  const view = new DataView(heap().buffer)
  const [left, bottom, right, top] = [0, 4, 8, 12].map((at) => view.getFloat32(box + at, true))
  const found = {
    pages: lib.FPDF_GetPageCount(document),
    width: lib.FPDF_GetPageWidthF(opened),
    height: lib.FPDF_GetPageHeightF(opened),
    trim: { left: left ?? 0, bottom: bottom ?? 0, right: right ?? 0, top: top ?? 0 },
    grey,
    neutral,
  }
  lib.FPDFBitmap_Destroy(bitmap)
  lib.FPDF_ClosePage(opened)
  lib.FPDF_CloseDocument(document)
  lib.pdfium.wasmExports.free(file)
  lib.pdfium.wasmExports.free(box)
  return found
}

export type PdfjsImage = Readonly<{ width: number; height: number; kind: number; data: Uint8Array }>

export type PdfjsPage = Readonly<{
  pages: number
  /** Left, bottom, right, top in points. */
  view: readonly number[]
  operators: readonly (readonly [string, unknown])[]
  images: readonly PdfjsImage[]
  info: Readonly<Record<string, unknown>>
  fingerprint: string
}>

/** With its own decoder of Group 4, not the one that it shares with pdfium. */
export async function byPdfjs(
  pdf: Uint8Array,
  { page = 0 }: Readonly<{ page?: number }> = {},
): Promise<PdfjsPage> {
  const task = getDocument({ data: pdf.slice(), useWasm: false, verbosity: 0 })
  const document = await task.promise
  const opened = await document.getPage(page + 1)
  const { fnArray, argsArray } = await opened.getOperatorList()
  const names = Object.fromEntries(Object.entries(OPS).map(([name, number]) => [number, name]))
  const operators = fnArray.map(
    (code, at) => [names[code] ?? `${code}`, argsArray[at] as unknown] as const,
  )
  const images: PdfjsImage[] = []
  for (const [name, values] of operators) {
    if (name !== 'paintImageXObject') continue
    const [id] = values as readonly [string]
    const { data, ...image } = await new Promise<PdfjsImage>((keep) => opened.objs.get(id, keep))
    images.push({ ...image, data: new Uint8Array(data.buffer, data.byteOffset, data.length) })
  }
  const { info } = await document.getMetadata()
  const found = {
    pages: document.numPages,
    view: opened.view,
    operators,
    images,
    info: info as Readonly<Record<string, unknown>>,
    fingerprint: document.fingerprints[0] ?? '',
  }
  await task.destroy()
  return found
}

/** A dictionary or an array as qpdf prints it: names with their slash, references as `7 0 R`. */
export type QpdfValue = string | number | boolean | null | readonly QpdfValue[] | QpdfRecord
export type QpdfRecord = Readonly<{ [key: string]: QpdfValue }>

/** `--check` of a file's structure: 0 is sound, 2 damaged, 3 sound with warnings. */
export async function checkedByQpdf(pdf: Uint8Array): Promise<number> {
  const { code } = await runQpdf(pdf, ['--check'])
  return code
}

/** All objects' dictionaries and values. */
export async function byQpdf(pdf: Uint8Array): Promise<readonly QpdfRecord[]> {
  const { words } = await runQpdf(pdf, ['--json=2', '--json-key=qpdf'])
  const { qpdf } = JSON.parse(words) as { qpdf: [unknown, Record<string, QpdfRecord>] }
  return Object.values(qpdf[1])
}

/** The dictionaries of streams of a kind: `/Image`. */
export async function imagesByQpdf(pdf: Uint8Array): Promise<readonly QpdfRecord[]> {
  const streams = (await byQpdf(pdf)).flatMap(({ stream }) =>
    stream !== undefined ? [(stream as QpdfRecord)['dict'] as QpdfRecord] : [],
  )
  return streams.filter((dict) => dict['/Subtype'] === '/Image')
}

async function runQpdf(
  pdf: Uint8Array,
  asked: readonly string[],
): Promise<Readonly<{ code: number; words: string }>> {
  const { default: start } = await import('@neslinesli93/qpdf-wasm')
  const words: string[] = []
  const { log, error } = console // it knows no other way out
  console.log = (line: string) => words.push(line)
  console.error = () => undefined
  try {
    const options = {
      locateFile: () => resolve('@neslinesli93/qpdf-wasm/dist/qpdf.wasm'),
      noInitialRun: true,
    }
    const qpdf = await start(options) // one instance a file
    const files = qpdf.FS as unknown as { writeFile: (path: string, bytes: Uint8Array) => void }
    files.writeFile('/film.pdf', pdf)
    const code = qpdf.callMain([...asked, '/film.pdf'])
    return { code, words: words.join('\n') }
  } finally {
    console.log = log
    console.error = error
  }
}
