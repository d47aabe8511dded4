import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { init, type WrappedPdfiumModule } from '@embedpdf/pdfium'
import { Failure } from '../core/failure.ts'
import type { ArtworkBand } from '../raster/films/artwork.ts'
import type { OpenedArtwork } from './artwork.ts'
import { drawnRows } from './drawnBands.ts'
import { named } from './named.ts'
import { unreadable } from './sourceFile.ts'

const MM_PER_POINT = 25.4 / 72
const MOST_BYTES = 256 * 2 ** 20

/** The library's number for a file that wants a password. */
const LOCKED = 4
/** Text and paths without greys at their edges: each pixel is wholly one colour. */
const CRISP = 0x1000 | 0x4000
const WHITE = 0xffff_ffff

/** The first page of a PDF; a file is one library's alone, which knows no others and no network. */
export async function openArtworkPdf(path: string, bytes: Uint8Array): Promise<OpenedArtwork> {
  if (bytes.length > MOST_BYTES) {
    throw new Failure('too large', `${named(path)} has more than 256 MB; save a simpler page.`)
  }
  const library = await startLibrary()
  const { malloc, free } = library.pdfium.wasmExports
  const file = malloc(bytes.length)
  heapOf(library).set(bytes, file)
  const document = library.FPDF_LoadMemDocument(file, bytes.length, '')
  if (document === 0) {
    throw unreadable(
      path,
      library.FPDF_GetLastError() === LOCKED
        ? 'is locked by a password; save it without one'
        : 'is damaged or no PDF; export it again',
    )
  }
  const page = library.FPDF_LoadPage(document, 0)
  if (page === 0) throw unreadable(path, 'has no page that can be read; export it again')
  const [width, height] = [library.FPDF_GetPageWidthF(page), library.FPDF_GetPageHeightF(page)]
  const pages = library.FPDF_GetPageCount(document)
  const close = (): Promise<void> => {
    library.FPDF_ClosePage(page)
    library.FPDF_CloseDocument(document)
    free(file)
    return Promise.resolve()
  }
  return {
    proportion: width / height,
    widthMm: width * MM_PER_POINT,
    kind: 'drawing',
    warnings: pages > 1 ? [`${named(path)} has ${pages} pages; the first is used.`] : [],
    samples: ({ widthPx, heightPx }) => {
      const most = Math.min(heightPx, drawnRows(path, widthPx))
      async function* bands(): AsyncGenerator<ArtworkBand> {
        const bitmap = library.FPDFBitmap_Create(widthPx, most, 0)
        try {
          for (let top = 0; top < heightPx; top += most) {
            const rows = Math.min(most, heightPx - top)
            library.FPDFBitmap_FillRect(bitmap, 0, 0, widthPx, most, WHITE)
            library.FPDF_RenderPageBitmap(bitmap, page, 0, -top, widthPx, heightPx, 0, CRISP)
            yield { rows, samples: rowsOf(library, bitmap, { widthPx, rows }) }
          }
        } finally {
          library.FPDFBitmap_Destroy(bitmap)
        }
      }
      return Promise.resolve({ space: 'rgb', widthPx, heightPx, bands })
    },
    close,
  }
}

async function startLibrary(): Promise<WrappedPdfiumModule> {
  const wasm = await readFile(
    createRequire(import.meta.url).resolve('@embedpdf/pdfium/pdfium.wasm'),
  )
  const library = await init({ wasmBinary: new Uint8Array(wasm).buffer })
  library.PDFiumExt_Init()
  return library
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
