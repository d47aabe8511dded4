import { NIGHT_HERON, nightHeronSvg } from '../../demo/nightHeron.ts'
import { addArtwork } from '../../store/artworks.ts'
import { type BlobPlace, storeBlob } from '../../store/blobs/blobStore.ts'
import type { Database } from '../../store/database/database.ts'

type At = Readonly<{ at: Date }>

const MOST_BYTES = 2 ** 20

/** Three inks with their tones; the moon's and the water's dots lie 30° apart. Colours invented. */
const PLAN = {
  widthMm: NIGHT_HERON.widthMm,
  resolutionDpi: 720,
  mode: 'spot',
  inks: [
    { name: 'moon', lab: [82, 5, 66], opacity: 0.5, angleDeg: 22.5 },
    { name: 'water', lab: [48, -24, -7], opacity: 0.6, angleDeg: 52.5 },
    { name: 'black', lab: [12, 0, 1], opacity: 0.95, angleDeg: 82.5 },
  ],
  halftone: { kind: 'dot', shape: 'round', rulingPerCm: 18, angleDeg: 22.5 },
  marks: { registration: true, label: true, scaleBar: true, stepStrip: true },
} as const

/** Keeps the demo drawing's file. @returns its sha-256 */
export async function keepDemoArtwork(place: BlobPlace, { at }: At): Promise<string> {
  const drawing = new TextEncoder().encode(nightHeronSvg())
  async function* bytes() {
    yield drawing
  }
  const wanted = { mediaType: 'image/svg+xml', limitBytes: MOST_BYTES }
  return (await storeBlob(place, bytes(), wanted, { at })).sha256
}

/** The demo drawing, with a plan for its films; nobody looks at it before somebody asks. */
export async function addDemoArtwork(
  database: Database,
  { originalBlob, fabricId, at }: At & Readonly<{ originalBlob: string; fabricId: string | null }>,
): Promise<void> {
  const { name, fileName } = NIGHT_HERON
  await addArtwork(database, { name, fileName, originalBlob, fabricId, plan: PLAN }, { at })
}
