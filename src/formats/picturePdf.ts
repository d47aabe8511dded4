import type { ByteSink, Deflater } from './bytes.ts'
import { POINTS_PER_MM } from './filmPage.ts'
import { BOX_DECIMALS, pdfNumber } from './pdfContent.ts'
import { latin, pdfDocument } from './pdfDocument.ts'

/** Colours at true size: rows of red, green and blue, and how large they are. */
export type TruePicture = Readonly<{
  rgb: Uint8Array
  widthPx: number
  heightPx: number
  widthMm: number
  heightMm: number
}>

/** Bare paper about the picture, and the bar below it that a ruler is laid on. */
export const PICTURE_RIM_MM = 12
export const PICTURE_BAR_MM = 50

/**
 * One page with a picture at its true size, a rim about it, and a bar of 50 mm below its left corner
 * (as long as the picture where that is shorter). It asks to be printed unscaled.
 *
 * @throws RangeError where the pixels do not fill the sides
 * @source pdf32000 (8.9 images, 12.2 viewer preferences)
 */
export async function writePicturePdf(
  { rgb, widthPx, heightPx, widthMm, heightMm }: TruePicture,
  {
    sink,
    deflater,
    title,
  }: Readonly<{ sink: Pick<ByteSink, 'write'>; deflater: Deflater; title: string }>,
): Promise<void> {
  if (rgb.length !== 3 * widthPx * heightPx) {
    throw new RangeError(`rgb: expected ${3 * widthPx * heightPx} bytes, got ${rgb.length}`)
  }
  const pdf = await pdfDocument(sink)
  const [root, tree, page, image, content, info] = [
    pdf.reserve(),
    pdf.reserve(),
    pdf.reserve(),
    pdf.reserve(),
    pdf.reserve(),
    pdf.reserve(),
  ]
  const size = `/Width ${widthPx} /Height ${heightPx} /ColorSpace /DeviceRGB /BitsPerComponent 8`
  await pdf.openStream(
    image,
    `/Type /XObject /Subtype /Image ${size} /Interpolate true /Filter /FlateDecode`,
  )
  const stream = deflater.stream()
  for (const part of await stream.push(rgb)) await pdf.write(part)
  for (const part of await stream.end()) await pdf.write(part)
  await pdf.closeStream()
  const pt = (mm: number): string => pdfNumber(mm * POINTS_PER_MM, BOX_DECIMALS)
  const [rim, bar] = [pt(PICTURE_RIM_MM), pt(Math.min(PICTURE_BAR_MM, widthMm))]
  const barAt = pt(PICTURE_RIM_MM / 2)
  await pdf.openStream(content, '')
  const drawn = `q ${pt(widthMm)} 0 0 ${pt(heightMm)} ${rim} ${rim} cm /P Do Q 0 g ${rim} ${barAt} ${bar} ${pt(1)} re f\n`
  await pdf.write(latin(drawn))
  await pdf.closeStream()
  const box = `[0 0 ${pt(widthMm + 2 * PICTURE_RIM_MM)} ${pt(heightMm + 2 * PICTURE_RIM_MM)}]`
  const resources = `<< /XObject << /P ${image} 0 R >> >>`
  await pdf.object(
    page,
    `<< /Type /Page /Parent ${tree} 0 R /MediaBox ${box} /Resources ${resources} /Contents ${content} 0 R >>`,
  )
  await pdf.object(tree, `<< /Type /Pages /Kids [${page} 0 R] /Count 1 >>`)
  const unscaled = '/ViewerPreferences << /PrintScaling /None >>'
  await pdf.object(root, `<< /Type /Catalog /Pages ${tree} 0 R ${unscaled} >>`)
  await pdf.object(info, `<< /Title (${title.replace(/[^ A-Za-z0-9.,-]/g, ' ')}) >>`)
  await pdf.finish({ root, info })
}
