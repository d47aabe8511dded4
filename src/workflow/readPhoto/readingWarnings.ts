import type { Beyond } from '../../raster/photo/densities.ts'
import type { Clear } from './clearOf.ts'
import type { SheetFound } from './sheetFound.ts'
import type { WedgeFound } from './wedgeIn.ts'

/** Smaller parts are not worth a sentence. */
const TELLS_FROM = 0.001

/** What the photo could not tell, each in a sentence. */
export function readingWarnings({
  found,
  beyond,
  clear,
  wedge,
  spread,
  highest,
}: Readonly<{
  found: SheetFound
  beyond: Beyond
  clear: Clear
  wedge: WedgeFound | null
  spread: Readonly<Record<string, number>> | null
  highest: number
}>): readonly string[] {
  const { darkShare, clippedShare, glareShare, unseenShare } = beyond
  const { light } = clear
  const shown = highest.toFixed(1)
  const told: readonly (readonly [boolean, string])[] = [
    [
      darkShare > TELLS_FROM,
      `Parts of the film (${part(darkShare)}) are darker than the photo can tell: denser than ${shown}. They stand in the map as ${shown}.`,
    ],
    [
      clippedShare > TELLS_FROM,
      `Parts of the film (${part(clippedShare)}) are brighter than the photo can tell: pale marks may be lost there. Take the photo darker.`,
    ],
    [
      glareShare > TELLS_FROM,
      `Parts of the film (${part(glareShare)}) shine brighter than the light table: a reflection. Densities there are too low. Turn off the lights of the room, and the flash.`,
    ],
    [
      unseenShare > TELLS_FROM,
      `Parts of the film (${part(unseenShare)}) lie outside the photo and stand in the map as clear.`,
    ],
    [
      wedge === null,
      'No step wedge was read, so densities are an estimate: the camera’s own tones are taken at their word. Lay a step wedge beside the film.',
    ],
    [
      found.kind === 'corners',
      'What the lens bends is seen by the reading mat alone; here the corners are right, and between them places may be off a little.',
    ],
    [
      found.kind === 'mat' && !found.lensSeen,
      'Too few of the mat’s targets are seen to tell what the lens bends; places may be off a little.',
    ],
    [
      spread === null,
      'Nothing in the film has a sharp edge, so how fine a line the photo can show is a guess.',
    ],
    [
      light.evenness < 0.35,
      `The light is uneven: at its darkest ${part(light.evenness)} of its brightest. Densities are set right by that; a more even light would tell them better.`,
    ],
    [
      light.base === null && light.coveredShare < 0.25,
      'Little of the film is clear, so how even the light is under the rest is a guess.',
    ],
  ]
  return told.filter(([holds]) => holds).map(([, words]) => words)
}

function part(share: number): string {
  return share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`
}
