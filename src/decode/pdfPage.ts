import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { init, type WrappedPdfiumModule } from '@embedpdf/pdfium'

/** The first page of a PDF, drawn in bands at any size. */
export type PdfPage = Readonly<{
  widthMm: number
  heightMm: number
  /** How many the file has. */
  pages: number
  /** Letters that it asks for and does not hold, by name. */
  missingFonts: readonly string[]
  /** The program that says it wrote the file; empty where none does. */
  producer: string
  /** Pixels to an inch of the first picture on the page; null where it has none. */
  pictureDpi: number | null
  /** Some rows of it, drawn so many pixels wide and high: sRGB. */
  band: (at: PdfBand) => Uint8Array<ArrayBuffer>
  close: () => void
}>

export type PdfBand = Readonly<{
  widthPx: number
  heightPx: number
  top: number
  rows: number
  /**
   * Where given, so many pixels to a point from the page's top left, whatever its width and height, and
   * pictures by their nearest pixel: one whose pixels are as large comes out as it lies in the file.
   */
  pixelsPerPoint?: number
}>

const MM_PER_POINT = 25.4 / 72

/** The library's number for a file that wants a password. */
const LOCKED = 4
/** Text and paths without greys at their edges: each pixel is wholly one colour. */
const CRISP = 0x1000 | 0x4000
/** Pictures by their nearest pixel. */
const AS_STORED = 0x2000
const WHITE = 0xffff_ffff

export async function startPdfLibrary(): Promise<WrappedPdfiumModule> {
  const wasm = await readFile(
    createRequire(import.meta.url).resolve('@embedpdf/pdfium/pdfium.wasm'),
  )
  const library = await init({ wasmBinary: new Uint8Array(wasm).buffer })
  library.PDFiumExt_Init()
  return library
}

/** @returns what is wrong with the file and what to do, where it cannot be opened */
export function openPdfPage(library: WrappedPdfiumModule, bytes: Uint8Array): PdfPage | string {
  const { malloc, free } = library.pdfium.wasmExports
  const file = malloc(bytes.length)
  heapOf(library).set(bytes, file)
  const document = library.FPDF_LoadMemDocument(file, bytes.length, '')
  if (document === 0) {
    free(file)
    return library.FPDF_GetLastError() === LOCKED
      ? 'is locked by a password; save it without one'
      : 'is damaged or no PDF; export it again'
  }
  const page = library.FPDF_LoadPage(document, 0)
  const close = (): void => {
    if (page !== 0) library.FPDF_ClosePage(page)
    library.FPDF_CloseDocument(document)
    free(file)
  }
  if (page === 0 || isWithoutSize(library, page)) {
    close()
    return page === 0
      ? 'has no page that can be read; export it again'
      : 'has a page of no size; export it again'
  }
  return {
    widthMm: library.FPDF_GetPageWidthF(page) * MM_PER_POINT,
    heightMm: library.FPDF_GetPageHeightF(page) * MM_PER_POINT,
    pages: library.FPDF_GetPageCount(document),
    missingFonts: missingFonts(library, page),
    producer: producerOf(library, document),
    pictureDpi: pictureDpi(library, page),
    band: ({ widthPx, heightPx, top, rows, pixelsPerPoint }) => {
      const bitmap = library.FPDFBitmap_Create(widthPx, rows, 0)
      try {
        library.FPDFBitmap_FillRect(bitmap, 0, 0, widthPx, rows, WHITE)
        if (pixelsPerPoint === undefined) {
          library.FPDF_RenderPageBitmap(bitmap, page, 0, -top, widthPx, heightPx, 0, CRISP)
        } else {
          const at = { widthPx, top, rows, pixelsPerPoint }
          drawAsStored(library, { bitmap, page, at })
        }
        return rowsOf(library, bitmap, { widthPx, rows })
      } finally {
        library.FPDFBitmap_Destroy(bitmap)
      }
    },
    close,
  }
}

function drawAsStored(
  library: WrappedPdfiumModule,
  {
    bitmap,
    page,
    at,
  }: Readonly<{
    bitmap: number
    page: number
    at: Readonly<{ widthPx: number; top: number; rows: number; pixelsPerPoint: number }>
  }>,
): void {
  const { malloc, free } = library.pdfium.wasmExports
  const { widthPx, top, rows, pixelsPerPoint } = at
  const fromPoints = [pixelsPerPoint, 0, 0, pixelsPerPoint, 0, -top]
  const drawn = [0, 0, widthPx, rows] // left, top, right, bottom
  const numbers = new Float32Array([...fromPoints, ...drawn])
  const matrix = malloc(numbers.byteLength)
  try {
    heapOf(library).set(new Uint8Array(numbers.buffer), matrix)
    const clip = matrix + 24
    const how = CRISP | AS_STORED
    library.FPDF_RenderPageBitmapWithMatrix(bitmap, page, matrix, clip, how)
  } finally {
    free(matrix)
  }
}

function producerOf(library: WrappedPdfiumModule, document: number): string {
  const { malloc, free } = library.pdfium.wasmExports
  const text = malloc(LONGEST_NAME)
  try {
    const length = library.FPDF_GetMetaText(document, 'Producer', text, LONGEST_NAME)
    const end = text + Math.max(0, Math.min(length, LONGEST_NAME) - 2) // behind it a zero
    return new TextDecoder('utf-16le').decode(heapOf(library).slice(text, end))
  } finally {
    free(text)
  }
}

function pictureDpi(library: WrappedPdfiumModule, page: number): number | null {
  const { malloc, free } = library.pdfium.wasmExports
  const count = Math.min(MOST_LOOKED_AT, library.FPDFPage_CountObjects(page))
  const facts = malloc(IMAGE_FACTS_BYTES)
  try {
    for (let at = 0; at < count; at++) {
      const object = library.FPDFPage_GetObject(page, at)
      if (library.FPDFPageObj_GetType(object) !== IMAGE) continue
      if (!library.FPDFImageObj_GetImageMetadata(object, page, facts)) continue
      const [, , dpi] = new Float32Array(heapOf(library).slice(facts, facts + 12).buffer)
      if (dpi !== undefined && dpi > 0 && Number.isFinite(dpi)) return dpi
    }
    return null
  } finally {
    free(facts)
  }
}

/** The library takes a page whose box is empty for a sheet of its own liking. */
function isWithoutSize(library: WrappedPdfiumModule, page: number): boolean {
  const { malloc, free } = library.pdfium.wasmExports
  const box = malloc(16)
  const [left, bottom, right, top] = [box, box + 4, box + 8, box + 12]
  try {
    if (!library.FPDFPage_GetMediaBox(page, left, bottom, right, top)) return false
    const sides = new Float32Array(heapOf(library).slice(box, box + 16).buffer)
    return sides[0] === sides[2] || sides[1] === sides[3]
  } finally {
    free(box)
  }
}

const TEXT = 1
const IMAGE = 3
/** Width, height, two resolutions, depth, colours, mark. */
const IMAGE_FACTS_BYTES = 28
const MOST_LOOKED_AT = 5000
const LONGEST_NAME = 200

/** @limits letters within groups are not looked at */
function missingFonts(library: WrappedPdfiumModule, page: number): readonly string[] {
  const { malloc, free } = library.pdfium.wasmExports
  const names = new Set<string>()
  const count = Math.min(MOST_LOOKED_AT, library.FPDFPage_CountObjects(page))
  const text = malloc(LONGEST_NAME)
  for (let at = 0; at < count; at++) {
    const object = library.FPDFPage_GetObject(page, at)
    if (library.FPDFPageObj_GetType(object) !== TEXT) continue
    const font = library.FPDFTextObj_GetFont(object)
    if (font === 0 || library.FPDFFont_GetIsEmbedded(font) !== 0) continue
    const length = library.FPDFFont_GetBaseFontName(font, text, LONGEST_NAME)
    const bytes = heapOf(library).slice(
      text,
      text + Math.max(0, Math.min(length, LONGEST_NAME) - 1),
    )
    names.add(new TextDecoder().decode(bytes).replace(/\p{C}/gu, '?'))
  }
  free(text)
  return [...names]
}

/** All of the library's memory; it may move at each call. */
function heapOf(library: WrappedPdfiumModule): Uint8Array {
  return (library.pdfium as unknown as Readonly<{ HEAPU8: Uint8Array }>).HEAPU8
}

/** The library keeps blue, green, red and a byte of nothing. */
function rowsOf(
  library: WrappedPdfiumModule,
  bitmap: number,
  { widthPx, rows }: Readonly<{ widthPx: number; rows: number }>,
): Uint8Array<ArrayBuffer> {
  const start = library.FPDFBitmap_GetBuffer(bitmap)
  const stride = library.FPDFBitmap_GetStride(bitmap)
  const heap = heapOf(library)
  const rgb = new Uint8Array(3 * widthPx * rows)
  let to = 0
  for (let row = 0; row < rows; row++) {
    let from = start + row * stride
    for (let x = 0; x < widthPx; x++, from += 4, to += 3) {
      rgb[to] = heap[from + 2] ?? 0
      rgb[to + 1] = heap[from + 1] ?? 0
      rgb[to + 2] = heap[from] ?? 0
    }
  }
  return rgb
}
