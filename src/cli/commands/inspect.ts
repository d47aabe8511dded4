import { basename } from 'node:path'
import type { Finding } from '../../core/inspection/findings.ts'
import type { Overwriting } from '../../decode/files.ts'
import type { Corner } from '../../workflow/inspectScreen/cornerGuesses.ts'
import { type Inspection, type Laid, LIMIT } from '../../workflow/inspectScreen/inspectScreen.ts'
import { FORCE_SWITCH, type Given, type Option, type Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { fourCorners } from '../corners.ts'
import { figures } from '../figures.ts'
import { FILM_OPTIONS, withFilmAt } from '../film.ts'
import { dayOf, numberIn, path } from '../reads.ts'

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

const SPOTTING: Option<string> = {
  name: 'spotting',
  about: 'write a list to take to the screen: the picture at true size, each place numbered',
  needed: false,
  reads: path({ what: 'spotting list', shown: 'OUT.pdf' }),
}

const DATE: Option<string> = {
  name: 'date',
  about: 'the day that stands on the spotting list; none unless given',
  needed: false,
  reads: dayOf('date'),
}

export const inspect: Command = {
  name: 'inspect',
  summary: 'what a photo of the washed-out screen shows: still shut, holes, scratches, gone ground',
  places: [PHOTO],
  options: [FILM, CORNERS, LIMIT_UM, SPOTTING, DATE, FORCE_SWITCH, ...FILM_OPTIONS],
  notes: [
    'Light behind the whole screen, the camera straight over it, the picture filling the photo.',
    'A photo shows what is larger than a few of its pixels; look at the screen as well.',
  ],
  example: {
    line: 'inspect docs/example/screen.jpg --film docs/example/pencil.png',
    prints: [
      'spot it: let it dry, then cover these places with filler',
      '1  scratch, 150 mm from the left, 245 mm from the top: 0.96 mm wide, 18 mm2',
      '2  pinhole, 72 mm from the left, 128 mm from the top: 2.4 mm wide, 4.6 mm2',
      'faults under 0.52 mm do not show in this photo',
    ].join('\n'),
  },
  run: async (given, io) => {
    await refuseOutput(given)
    const { openPhoto } = await import('../../decode/photo.ts')
    const { inspectScreen } = await import('../../workflow/inspectScreen/inspectScreen.ts')
    let laid: Laid | null = null
    const photo = await openPhoto(given.needs(PHOTO))
    const answer = await withFilmAt(given.needs(FILM), given, io, (film) =>
      inspectScreen(photo, film, {
        corners: given.of(CORNERS),
        limitUm: given.of(LIMIT_UM),
        onLaid: (over) => {
          laid = over
        },
      }),
    )
    if (laid !== null) await writeSpotting(given, { laid, answer })
    for (const warning of answer.warnings) io.stderr.write(`${warning}\n`)
    return { record: answer, text: inspectionText(answer) }
  },
}

/** Before any work: an output that cannot be written is said at once. */
async function refuseOutput(given: Given): Promise<void> {
  const out = given.of(SPOTTING)
  if (out === undefined) return
  const { refuseExisting } = await import('../../decode/files.ts')
  await refuseExisting(out, overwriting(given))
}

function overwriting(given: Given): Overwriting {
  return { force: given.has(FORCE_SWITCH), inputs: [given.needs(PHOTO), given.needs(FILM)] }
}

async function writeSpotting(
  given: Given,
  { laid, answer }: Readonly<{ laid: Laid; answer: Inspection }>,
): Promise<void> {
  const out = given.of(SPOTTING)
  if (out === undefined) return
  const { spottingListPage } = await import('../../workflow/papers/spottingList.ts')
  const { openLetters } = await import('../../decode/glyphs.ts')
  const { writeWhole } = await import('../../decode/files.ts')
  const { deflater } = await import('../../decode/deflater.ts')
  const { writeFilmPdf } = await import('../../formats/filmPdf.ts')
  const date = given.of(DATE)
  const page = spottingListPage(
    {
      marks: laid.film,
      cellUm: laid.cellUm,
      findings: answer.findings,
      shop: null,
      title: basename(given.needs(FILM)),
      date,
    },
    { letters: await openLetters() },
  )
  await writeWhole(out, overwriting(given), (sink) =>
    writeFilmPdf([page], {
      sink,
      deflater: deflater({ level: 9 }),
      title: 'Spotting list',
      ...(date === undefined ? {} : { madeAt: `${date}T00:00:00Z` }),
    }),
  )
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
