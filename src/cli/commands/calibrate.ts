import type { Doubtful } from '../../core/units/quantity.ts'
import type { Calibration, CalibrationAnswer, CalibrationMedium } from '../../workflow/calibrate.ts'
import {
  CALIBRATION_BYTES_AT_MOST,
  type CalibrationProblem,
} from '../../workflow/calibrationProblem.ts'
import type { Option, Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns, figures } from '../figures.ts'
import { hung } from '../helpText.ts'
import { progressOn } from '../progress.ts'
import { path, word } from '../reads.ts'
import { readTextFile } from '../textFile.ts'

const READINGS: Place<string> = {
  name: 'READINGS',
  about: 'wedges, strips and screens as JSON, and what is asked; a list of such gives a list',
  needed: true,
  reads: path({ what: 'file of readings', shown: 'READINGS.json' }),
}

const UNTIL: Option<string> = {
  name: 'until',
  about: 'what was known in the evening of that day: a date or a number, as the days in the file',
  needed: false,
  reads: word({ what: 'last day', shown: 'DAY' }),
}

export const calibrate: Command = {
  name: 'calibrate',
  summary: "a shop's own doses, from its wedges, strips and screens",
  places: [READINGS],
  options: [UNTIL],
  notes: [
    'The file has "evidence" and "ask", like docs/example/readings.json: a wedge (doseLu, lastSolidStep, firstClearStep), a strip (medium, bands of doseLu and grade), an outcome (medium, doseLu, grade). Each may say day, lampHours, unit, emulsion, fabric, dyed, recipe, screen, film and baseDensity. "ground" and "marks" may stand in place of a grade. "wedge" describes the wedge, where it is not the usual one.',
    'Before any reading the doses are guesses of ours; nine times in ten the truth lies in a range. A dose ranges as far as its chance of a good screen is 0.8 of the best. A day has no hours, and a reading that is struck out ("struckOut": true) teaches nothing. A "baseDensity" counts over the base of what names none, which is 0 unless "usualBaseDensity" says it.',
    "Do not look at the lamp. Your unit's manual, the emulsion's data sheet and local codes come first.",
  ],
  example: {
    line: 'calibrate docs/example/readings.json',
    prints: [
      'washes clean below  6.97 lu, 5.2 to 9.33',
      'holds from          11.1 lu, 8.39 to 14.6',
      'sound from          25.1 lu, 19.6 to 32.3',
      '',
      'soft pencil  35.3 lu, 28.1 to 46.6, good 9 times in 10; density 0.90 D, 0.72 to 1.08',
      'drawing ink  41.4 lu, 29.1 to 72.9, good 9 times in 10; density 1.20 D, 0.84 to 1.56',
      '',
      '1. soft pencil: 35.4 light units, 28.1 to 46.7, fairly sure; good 8 times in 10.',
      '   One screen and one strip in soft pencil stand behind this, the newest 4 days ago.',
      '   Last wedge 7 days ago.',
      '',
      '2. drawing ink: 71.9 light units, 46.1 to 120, a first guess; good 9 times in 10.',
      '   A first guess: nobody has told us yet how drawing ink comes out here.',
      '   Last wedge 7 days ago.',
      '   This bucket is new: expect plus or minus a third of a stop.',
      '   This fabric is new to us: expect about 1.5 times the light, plus or minus half a stop.',
    ].join('\n'),
  },
  run: async (given, io) => {
    const { calibrate: calibrated } = await import('../../workflow/calibrate.ts')
    const { calibrationsFromJson } = await import('../../workflow/readCalibration.ts')
    const { untilFrom } = await import('../../workflow/readCalibrationDays.ts')
    const written = await readTextFile(given.needs(READINGS), {
      what: 'file of readings',
      field: READINGS.name,
      mostBytes: CALIBRATION_BYTES_AT_MOST,
    })
    const { isList, problems } = calibrationsFromJson(written)
    const until = given.of(UNTIL)
    const limited = problems.map((problem) => {
      return { problem, until: until === undefined ? until : untilFrom(until, problem.days) }
    })
    const progress = progressOn(io.stderr, 'calibrate')
    const records = limited.map(({ problem, until }, at) => {
      progress.at(at / problems.length)
      return calibrated(problem, { until })
    })
    progress.done()
    for (const warning of records.flatMap(({ warnings }) => warnings))
      io.stderr.write(`${warning}\n`)
    const texts = records.map((record, at) => calibrationText(record, problems[at]?.ask ?? []))
    const [record] = records
    if (!isList && record !== undefined) return { record, text: texts.join('') }
    const text = texts.map((each, at) => `Problem ${at + 1}\n${each}`).join('\n\n')
    return { record: records, text }
  },
}

function calibrationText(
  { gelDoseLu, holdDoseLu, soundDoseLu, media, drift, answers }: Calibration,
  ask: CalibrationProblem['ask'],
): string {
  const ground = columns([
    ['washes clean below', rangeText(gelDoseLu, 'lu')],
    ['holds from', rangeText(holdDoseLu, 'lu')],
    ['sound from', rangeText(soundDoseLu, 'lu')],
  ])
  const rows = media.map((medium) => [medium.name, mediumText(medium)] as const)
  return [
    ground,
    ...(rows.length === 0 ? [] : ['', columns(rows)]),
    ...drift.flatMap(({ day, reason }) => ['', ...hung(`${day}: `, reason)]),
    ...answers.flatMap((answer, at) => ['', ...answerLines(answer, { at, question: ask[at] })]),
  ].join('\n')
}

function mediumText({ dose, density, chanceGood }: CalibrationMedium): string {
  const { value, low, high } = density
  const [middle, from, to] = [value, low, high].map((each) => each.toFixed(2))
  return `${rangeText(dose, 'lu')}, good ${tenText(chanceGood)}; density ${middle} D, ${from} to ${to}`
}

function answerLines(
  { dose, chanceGood, word, reasons }: CalibrationAnswer,
  {
    at,
    question,
  }: Readonly<{ at: number; question: CalibrationProblem['ask'][number] | undefined }>,
): readonly string[] {
  const media = (question?.marks ?? []).flatMap((marks) =>
    'density' in marks ? [] : [marks.medium],
  )
  const head = `${at + 1}. ${media.join(' and ')}: `
  const said = `${rangeText(dose, 'light units')}, ${word}; good ${tenText(chanceGood)}.`
  return [...hung(head, said), ...reasons.flatMap((reason) => hung('   ', reason))]
}

/** `38.2 lu, 30.1 to 47` */
function rangeText({ value, low, high }: Doubtful, unit: string): string {
  return `${figures(value)} ${unit}, ${figures(low)} to ${figures(high)}`
}

/** Of ten screens: `7 times in 10`. */
function tenText(chance: number): string {
  return `${Math.round(10 * chance)} times in 10`
}
