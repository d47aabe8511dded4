import type { ByteSink, Deflater } from './bytes.ts'
import { expectPage, type FilmPage, POINTS_PER_MM } from './filmPage.ts'
import { BOX_DECIMALS, bitmapsOf, type PdfInk, pageContent, pdfNumber } from './pdfContent.ts'
import { latin, type PdfDocument, pdfDocument } from './pdfDocument.ts'
import { writePdfImages } from './pdfImage.ts'

/**
 * How black is asked for: `black` the black ink alone, `all` every ink the printer has, `grey`
 * plain black as a text has it, for printers that mix it as they see fit.
 */
export type FilmInk = 'black' | 'all' | 'grey'

export type FilmPdfOutput = Readonly<{
  sink: Pick<ByteSink, 'write'>
  /** Without one bitmaps are in Group 4 whatever it costs, and drawings stand as they are. */
  deflater?: Deflater
  /** `black` unless told otherwise. */
  ink?: FilmInk
  title?: string
  /** When it was made, in UTC, as `2026-03-14T09:26:53Z`; none stands in the file unless given. */
  madeAt?: string
}>

const BLACK = '/DeviceGray << /FunctionType 2 /Domain [0 1] /C0 [1] /C1 [0] /N 1 >>'

export const FILM_INKS: Readonly<Record<FilmInk, PdfInk>> = {
  black: { space: `[/Separation /Black ${BLACK}]`, level: (share) => share, decode: '[0 1]' },
  all: { space: `[/Separation /All ${BLACK}]`, level: (share) => share, decode: '[0 1]' },
  grey: { space: '/DeviceGray', level: (share) => 1 - share, decode: '[1 0]' },
}

const MADE_AT = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)Z$/

/**
 * Writes pages at true size, as their rows come, each bitmap kept no longer than two rows and what
 * `writePdfImages` needs to choose its coding.
 *
 * Boxes are in points of six decimals: to a nanometre. The file asks to be printed unscaled. Same
 * pages, same compressor: same bytes, however the rows came.
 *
 * @throws RangeError where there is no page, a page or an item on it cannot be, or rows do not fill
 *   a bitmap's height
 * @source pdf32000 (8.6.6.4 Separation, 8.9 images, 12.2 viewer preferences, 14.11.2 boxes)
 */
export async function writeFilmPdf(
  pages: readonly FilmPage[],
  output: FilmPdfOutput,
): Promise<void> {
  if (pages.length === 0) throw new RangeError('pages: expected at least one')
  for (const page of pages) expectPage(page)
  const info = infoOf(output)
  const ink = FILM_INKS[output.ink ?? 'black']
  const pdf = await pdfDocument(output.sink)
  const [root, tree, space] = [pdf.reserve(), pdf.reserve(), pdf.reserve()]
  await pdf.object(space, ink.space)
  const kids: number[] = []
  for (const page of pages) kids.push(await writePage(page, { pdf, tree, space, ink, output }))
  const list = kids.map((kid) => `${kid} 0 R`).join(' ')
  await pdf.object(tree, `<< /Type /Pages /Kids [${list}] /Count ${kids.length} >>`)
  const unscaled = '/ViewerPreferences << /PrintScaling /None >>'
  await pdf.object(root, `<< /Type /Catalog /Pages ${tree} 0 R ${unscaled} >>`)
  if (info === null) return pdf.finish({ root })
  const infoId = pdf.reserve()
  await pdf.object(infoId, info)
  return pdf.finish({ root, info: infoId })
}

type Within = Readonly<{
  pdf: PdfDocument
  tree: number
  space: number
  ink: PdfInk
  output: FilmPdfOutput
}>

async function writePage(page: FilmPage, within: Within): Promise<number> {
  const { pdf, tree, space, ink, output } = within
  const images: number[] = []
  for (const { film } of bitmapsOf(page.items)) {
    const sink = {
      open: async ({ rows, coding }: Readonly<{ rows: number; coding: string }>) => {
        const size = `/Width ${film.widthPx} /Height ${rows} /BitsPerComponent 1`
        const colour = `/ColorSpace ${space} 0 R /Decode ${ink.decode}`
        images.push(pdf.reserve())
        await pdf.openStream(
          images.at(-1) ?? 0,
          `/Type /XObject /Subtype /Image ${size} ${colour} ${coding}`,
        )
      },
      write: pdf.write,
      close: pdf.closeStream,
    }
    await writePdfImages(film, { sink, deflater: output.deflater })
  }
  const content = pdf.reserve()
  const plain = latin(pageContent(page, ink))
  await pdf.openStream(content, output.deflater === undefined ? '' : '/Filter /FlateDecode')
  await pdf.write(output.deflater === undefined ? plain : await output.deflater.whole(plain))
  await pdf.closeStream()
  const named = images.map((id, at) => `/Film${at + 1} ${id} 0 R`).join(' ')
  const films = images.length === 0 ? '' : ` /XObject << ${named} >>`
  const resources = `<< /ColorSpace << /Ink ${space} 0 R >>${films} >>`
  const boxes = `/MediaBox ${mediaBox(page)} /TrimBox ${trimBox(page)}`
  const id = pdf.reserve()
  const parts = `/Parent ${tree} 0 R ${boxes} /Resources ${resources} /Contents ${content} 0 R`
  await pdf.object(id, `<< /Type /Page ${parts} >>`)
  return id
}

function mediaBox({ widthMm, heightMm }: FilmPage): string {
  return box([0, 0, widthMm, heightMm])
}

function trimBox({ widthMm, heightMm, trim }: FilmPage): string {
  if (trim === undefined) return box([0, 0, widthMm, heightMm])
  const bottom = heightMm - trim.yMm - trim.heightMm
  return box([trim.xMm, bottom, trim.xMm + trim.widthMm, bottom + trim.heightMm])
}

/** Left, bottom, right, top in mm. */
function box(sides: readonly number[]): string {
  return `[${sides.map((side) => pdfNumber(POINTS_PER_MM * side, BOX_DECIMALS)).join(' ')}]`
}

function infoOf({ title, madeAt }: FilmPdfOutput): string | null {
  if (title === undefined && madeAt === undefined) return null
  const entries = ['/Producer (Yellowroom)']
  if (title !== undefined) entries.push(`/Title <${utf16(title)}>`)
  if (madeAt !== undefined) {
    const parts = MADE_AT.exec(madeAt)?.slice(1)
    if (parts === undefined) {
      throw new RangeError(`madeAt: expected a time like 2026-03-14T09:26:53Z, got ${madeAt}`)
    }
    entries.push(`/CreationDate (D:${parts.join('')}Z)`)
  }
  return `<< ${entries.join(' ')} >>`
}

/** Text in hexadecimal UTF-16 behind its byte-order mark, as PDF takes any language. */
function utf16(text: string): string {
  const units = Array.from({ length: text.length }, (_, at) => text.charCodeAt(at))
  return ['feff', ...units.map((unit) => unit.toString(16).padStart(4, '0'))].join('')
}
