import { expect, test } from 'vitest'
import { near } from '../core/units/near.testing.ts'
import { byPdfium } from './pdfReaders.testing.ts'
import { PICTURE_RIM_MM, writePicturePdf } from './picturePdf.ts'
import { memorySink, testDeflater } from './sink.testing.ts'

test('read by pdfium, a picture lies on its page at true size, within its rim, with a bar of 50 mm', async () => {
  // left half red, right half blue: 80 by 40 mm in 8 by 4 pixels
  const rgb = Uint8Array.from({ length: 3 * 32 }, (_, at) => {
    const [pixel, part] = [Math.floor(at / 3), at % 3]
    return (pixel % 8 < 4 ? part === 0 : part === 2) ? 255 : 0
  })
  const { sink, bytes } = memorySink()
  const picture = { rgb, widthPx: 8, heightPx: 4, widthMm: 80, heightMm: 40 }
  await writePicturePdf(picture, { sink, deflater: testDeflater, title: 'heron (proof)' })
  const [widthMm, heightMm] = [80 + 2 * PICTURE_RIM_MM, 40 + 2 * PICTURE_RIM_MM]
  const asked = { widthPx: 10 * widthMm, heightPx: 10 * heightMm }
  const page = await byPdfium(bytes(), asked)
  expect([page.pages, page.neutral]).toEqual([1, false])
  near((page.width * 25.4) / 72, widthMm, { within: 0.001, because: 'single precision' })
  near((page.height * 25.4) / 72, heightMm, { within: 0.001, because: 'single precision' })
  const darkIn = (y: number): readonly number[] => {
    const row = page.grey.subarray(y * asked.widthPx, (y + 1) * asked.widthPx)
    const dark = [...row.keys()].filter((x) => (row[x] ?? 255) < 200)
    return [dark[0] ?? -1, dark.at(-1) ?? -1]
  }
  // a tenth of a mm a pixel: the picture from rim to rim, the bar 50 mm from the left one
  const middle = darkIn(320)
  near(middle[0] ?? 0, 120, { within: 1, because: 'a pixel' })
  near(middle[1] ?? 0, 919, { within: 1, because: 'a pixel' })
  const bar = darkIn(asked.heightPx - 65)
  near(bar[0] ?? 0, 120, { within: 1, because: 'a pixel' })
  near(bar[1] ?? 0, 619, { within: 1, because: 'a pixel' })
})
