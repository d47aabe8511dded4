import type { ClassShares } from '../../core/forecast/classes.ts'
import { DOSE } from '../../core/light/doseField.ts'
import { lu } from '../../core/units/quantity.ts'
import type { Overwriting } from '../../decode/files.ts'
import type { Film } from '../../raster/film.ts'
import type { ClassRows, Forecast, ForecastQuestion } from '../../workflow/forecastFilm.ts'
import type { Setup } from '../../workflow/setup.ts'
import type { watchStencil } from '../../workflow/watchStencil.ts'
import { FORCE_SWITCH, type Given, type Option } from '../arguments.ts'
import type { Command, Io } from '../command.ts'
import { doseOf } from '../doses.ts'
import { columns, figures, percent } from '../figures.ts'
import {
  DEFAULT_SOLID_DENSITY,
  FILM,
  FILM_OPTIONS,
  SETUP,
  SOLID,
  withFilmAndSetup,
} from '../film.ts'
import { progressOn } from '../progress.ts'
import { numberIn, path, type Sweep, sweepOf } from '../reads.ts'

const DOSE_ASKED: Option<number> = {
  name: 'dose',
  about: 'the dose to forecast, in light units',
  needed: true,
  reads: doseOf('dose', 42),
}

const SWEEP: Option<Sweep> = {
  name: 'sweep',
  about: 'other doses to tell the shares of: both ends and steps in equal ratios',
  needed: false,
  reads: sweepOf(doseOf('dose', 42), {
    count: numberIn(
      { ...DOSE, name: 'count', low: 2, high: 1000, whole: true },
      { what: 'count of the sweep', units: '', like: 9, shown: 'COUNT' },
    ),
    like: '20:90:9',
  }),
}

const CLASSES: Option<string> = {
  name: 'classes',
  about: "a grey picture in the film's pixels: 0 open, 128 in doubt, 255 closed",
  needed: false,
  reads: path({ what: 'class picture', shown: 'OUT.png' }),
}

const PICTURE: Option<string> = {
  name: 'picture',
  about: 'the stencil drawn for people: what opens, what is in doubt, the weakest marks ringed',
  needed: false,
  reads: path({ what: 'picture', shown: 'OUT.png' }),
}

export const forecast: Command = {
  name: 'forecast',
  summary: 'what the stencil will be at a dose: what opens, what closes, what is in doubt',
  places: [FILM],
  options: [SETUP, DOSE_ASKED, SWEEP, CLASSES, PICTURE, FORCE_SWITCH, ...FILM_OPTIONS],
  notes: [
    'The smallest lines are those in the middle of which it opens or closes; the fabric is not counted.',
  ],
  example: {
    line: 'forecast docs/example/pencil.png --setup docs/example/setup.json --dose 40',
    prints: [
      'at 40 light units           31.7 % open, 68.3 % in doubt, 0.0 % closed',
      'in doubt                    2.8 % veiled, 65.5 % soft inside',
      'film                        210 x 297 mm',
      'doses                       skin 6, hold 10.3, full 52.1 light units',
      'narrowest line that opens   2.63 um',
      'narrowest line that closes  none',
    ].join('\n'),
  },
  run: async (given, io) => {
    await refuseOutput(given)
    return withFilmAndSetup(given, io, async (film, setup) => {
      const answer = await forecastOf({ film, setup }, given, io)
      return { record: answer, text: forecastText(answer) }
    })
  },
}

/** Before any work: an output that cannot be written is said at once. */
async function refuseOutput(given: Given): Promise<void> {
  const outs = [given.of(CLASSES), given.of(PICTURE)].filter((out) => out !== undefined)
  if (outs.length === 0) return
  const { refuseExisting, refuseSamePlace } = await import('../../decode/files.ts')
  for (const out of outs) await refuseExisting(out, overwriting(given))
  refuseSamePlace(outs)
}

function overwriting(given: Given): Overwriting {
  return { force: given.has(FORCE_SWITCH), inputs: [given.needs(FILM), given.needs(SETUP)] }
}

async function forecastOf(
  { film, setup }: Readonly<{ film: Film; setup: Setup }>,
  given: Given,
  io: Io,
): Promise<Forecast> {
  const { forecastFilm } = await import('../../workflow/forecastFilm.ts')
  const question: ForecastQuestion = {
    doseLu: lu(given.needs(DOSE_ASKED)),
    sweep: given.of(SWEEP),
    solidDensity: given.of(SOLID) ?? DEFAULT_SOLID_DENSITY,
  }
  const progress = progressOn(io.stderr, 'forecast')
  const pictureOut = given.of(PICTURE)
  const watched = pictureOut === undefined ? null : await watchForPicture(film, setup, question)
  const { classes, answer } = forecastFilm(film, setup, question, [
    (_, rowsDone) => progress.at(rowsDone / film.heightPx),
    ...(watched === null ? [] : [watched.watch]),
  ])
  const out = given.of(CLASSES)
  if (out === undefined) await pullAll(classes())
  else await writeClasses(out, { film, bands: classes(), given })
  if (watched !== null && pictureOut !== undefined)
    await writePeoplesPicture(pictureOut, watched, given)
  progress.done()
  return answer()
}

/** The answer is complete once every row has gone by. */
async function pullAll(bands: AsyncIterator<ClassRows>): Promise<void> {
  while ((await bands.next()).done !== true);
}

async function writeClasses(
  out: string,
  { film, bands, given }: Readonly<{ film: Film; bands: AsyncIterable<ClassRows>; given: Given }>,
): Promise<void> {
  const { writeWhole } = await import('../../decode/files.ts')
  const { deflater } = await import('../../decode/deflater.ts')
  const { writeGreyPng } = await import('../../formats/greyPng.ts')
  await writeWhole(out, overwriting(given), (sink) =>
    writeGreyPng({ ...film, bands }, { sink, deflater: deflater() }),
  )
}

type Watched = ReturnType<typeof watchStencil>

async function watchForPicture(
  film: Film,
  setup: Setup,
  question: ForecastQuestion,
): Promise<Watched> {
  const { watchStencil } = await import('../../workflow/watchStencil.ts')
  return watchStencil(film, setup, question)
}

async function writePeoplesPicture(out: string, watched: Watched, given: Given): Promise<void> {
  const { writePicture } = await import('../../decode/picture.ts')
  await writePicture(out, watched.picture(), overwriting(given))
}

function forecastText(answer: Forecast): string {
  const { share, smallest, sweep } = answer
  const size = `${figures(answer.widthMm)} x ${figures(answer.heightMm)} mm`
  const line = (um: number | null): string => (um === null ? 'none' : `${figures(um)} um`)
  const rows: (readonly [string, string])[] = [
    [`at ${figures(answer.doseLu)} light units`, shareWords(share)],
    ['in doubt', `${percent(share.veiled)} veiled, ${percent(share.soft)} soft inside`],
    ['film', size],
    [
      'doses',
      `skin ${figures(answer.gelDoseLu)}, hold ${figures(answer.holdDoseLu)}, full ${figures(answer.throughDoseLu)} light units`,
    ],
    ['narrowest line that opens', line(smallest.openLineUm)],
    ['narrowest line that closes', line(smallest.closedLineUm)],
    ...sweep.map((at) => [`at ${figures(at.doseLu)} light units`, shareWords(at.share)] as const),
  ]
  return columns(rows)
}

function shareWords({ open, inDoubt, closed }: ClassShares): string {
  return `${percent(open)} open, ${percent(inDoubt)} in doubt, ${percent(closed)} closed`
}
