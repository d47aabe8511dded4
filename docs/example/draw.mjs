// Draws pencil.png, the film of the examples in `help`: a demo drawing of an invented print room,
// at true size and few pixels. Run it after `npm test` or any command: it needs the built sources.
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { DEMO_FILMS } from '../../dist/demo/films.js'

const RESOLUTION_DPI = 120

const { widthPx, heightPx, transmissionOf, bands } = DEMO_FILMS.softPencil.draw({
  resolutionDpi: RESOLUTION_DPI,
})
const grey = Buffer.alloc(widthPx * heightPx)
for await (const { top, samples } of bands()) {
  for (let at = 0; at < samples.length; at += 1) {
    grey[top * widthPx + at] = Math.min(255, Math.round(255 * transmissionOf[samples[at]]))
  }
}
await sharp(grey, { raw: { width: widthPx, height: heightPx, channels: 1 } })
  .toColourspace('b-w')
  .withDensity(RESOLUTION_DPI)
  .png({ compressionLevel: 9 })
  .toFile(fileURLToPath(new URL('pencil.png', import.meta.url)))
