import type { Finding } from '../../core/inspection/findings.ts'
import type { Corner } from '../../workflow/inspectScreen/cornerGuesses.ts'
import { type Inspection, LIMIT } from '../../workflow/inspectScreen/inspectScreen.ts'
import type { Option, Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { fourCorners } from '../corners.ts'
import { figures } from '../figures.ts'
import { FILM_OPTIONS, withFilmAt } from '../film.ts'
import { numberIn, path } from '../reads.ts'

const PHOTO: Place<string> = {
  name: 'PHOTO',
  about: 'a photo of the washed-out screen with light behind all of it',
  needed: true,
  reads: path({ what: 'photo', shown: 'PHOTO' }),
}

const FILM: Option<string> = {
  name: 'film',
  about: 'the film the screen was made with',
  needed: true,
  reads: path({ what: 'film', shown: 'FILM' }),
}

const CORNERS: Option<readonly Corner[]> = {
  name: 'corners',
  about: "the film's corners in photo pixels, clockwise, where they are not found by themselves",
  needed: false,
  reads: fourCorners(),
}

const LIMIT_UM: Option<number> = {
  name: 'limit-um',
  about: 'tell of nothing narrower than this',
  needed: false,
  reads: numberIn(LIMIT, { what: 'limit', units: 'um', like: 500, shown: 'N' }),
}

export const inspect: Command = {
  name: 'inspect',
  summary: 'what a photo of the washed-out screen shows: still shut, holes, scratches, gone ground',
  places: [PHOTO],
  options: [FILM, CORNERS, LIMIT_UM, ...FILM_OPTIONS],
  notes: [
    'Light behind the whole screen, the camera straight over it, the picture filling the photo.',
    'A photo shows what is larger than a few of its pixels; look at the screen as well.',
  ],
  example: {
    line: 'inspect docs/example/screen.jpg --film docs/example/pencil.png',
    prints: [
      'spot it: let it dry, then cover these places with filler',
      '1  scratch, 150 mm from the left, 245 mm from the top: 0.96 mm wide, 17 mm2',
      '2  pinhole, 72 mm from the left, 128 mm from the top: 2.4 mm wide, 4.5 mm2',
      'faults under 0.42 mm do not show in this photo',
    ].join('\n'),
  },
  run: async (given, io) => {
    const { openPhoto } = await import('../../decode/photo.ts')
    const { inspectScreen } = await import('../../workflow/inspectScreen/inspectScreen.ts')
    const photo = await openPhoto(given.needs(PHOTO))
    const answer = await withFilmAt(given.needs(FILM), given, io, (film) =>
      inspectScreen(photo, film, { corners: given.of(CORNERS), limitUm: given.of(LIMIT_UM) }),
    )
    for (const warning of answer.warnings) io.stderr.write(`${warning}\n`)
    return { record: answer, text: inspectionText(answer) }
  },
}

const SAYS: Readonly<Record<Inspection['verdict'], string>> = {
  good: 'good: the photo shows the picture as it was drawn',
  'wash more': 'wash more: the photo shows places that are still shut',
  'spot it': 'spot it: let it dry, then cover these places with filler',
  'make again': 'make again: the photo shows ground that is gone',
}

function inspectionText({ verdict, resolutionUm, findings }: Inspection): string {
  return [
    SAYS[verdict],
    ...findings.map(findingLine),
    `faults under ${figures(resolutionUm / 1000, 2)} mm do not show in this photo`,
  ].join('\n')
}

function findingLine({ kind, xMm, yMm, areaMm2, widthUm }: Finding, at: number): string {
  const place = `${figures(xMm)} mm from the left, ${figures(yMm)} mm from the top`
  const size = `${figures(widthUm / 1000, 2)} mm wide, ${figures(areaMm2, 2)} mm2`
  return `${at + 1}  ${kind}, ${place}: ${size}`
}
