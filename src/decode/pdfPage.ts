import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { init, type WrappedPdfiumModule } from '@embedpdf/pdfium'
import type { Artwork, ArtworkBand } from '../raster/films/artwork.ts'

/** The first page of a PDF, drawn in bands at any size. */
export type PdfPage = Readonly<{
  widthMm: number
  heightMm: number
  /** How many the file has. */
  pages: number
  artwork: (size: Readonly<{ widthPx: number; heightPx: number; bandRows: number }>) => Artwork
  close: () => void
}>

const MM_PER_POINT = 25.4 / 72

/** The library's number for a file that wants a password. */
const LOCKED = 4
/** Text and paths without greys at their edges: each pixel is wholly one colour. */
const CRISP = 0x1000 | 0x4000
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
    return library.FPDF_GetLastError() === LOCKED
      ? 'is locked by a password; save it without one'
      : 'is damaged or no PDF; export it again'
  }
  const page = library.FPDF_LoadPage(document, 0)
  if (page === 0) return 'has no page that can be read; export it again'
  return {
    widthMm: library.FPDF_GetPageWidthF(page) * MM_PER_POINT,
    heightMm: library.FPDF_GetPageHeightF(page) * MM_PER_POINT,
    pages: library.FPDF_GetPageCount(document),
    artwork: ({ widthPx, heightPx, bandRows }) => {
      const most = Math.min(heightPx, bandRows)
      async function* bands(): AsyncGenerator<ArtworkBand> {
        const bitmap = library.FPDFBitmap_Create(widthPx, most, 0)
        try {
          for (let top = 0; top < heightPx; top += most) {
            const rows = Math.min(most, heightPx - top)
            library.FPDFBitmap_FillRect(bitmap, 0, 0, widthPx, most, WHITE)
            library.FPDF_RenderPageBitmap(bitmap, page, 0, -top, widthPx, heightPx, 0, CRISP)
            yield await Promise.resolve({
              rows,
              samples: rowsOf(library, bitmap, { widthPx, rows }),
            })
          }
        } finally {
          library.FPDFBitmap_Destroy(bitmap)
        }
      }
      return { space: 'rgb', widthPx, heightPx, bands }
    },
    close: () => {
      library.FPDF_ClosePage(page)
      library.FPDF_CloseDocument(document)
      free(file)
    },
  }
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
): Uint8Array {
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
