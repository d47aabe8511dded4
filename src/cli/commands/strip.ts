import { BANDS, planStrip, type Strip } from '../../core/calibration/strip.ts'
import { Failure } from '../../core/failure.ts'
import { lu } from '../../core/units/quantity.ts'
import type { Option } from '../arguments.ts'
import type { Command } from '../command.ts'
import { doseOf } from '../doses.ts'
import { figures } from '../figures.ts'
import { hung } from '../helpText.ts'
import { numberIn } from '../reads.ts'
import { STRIP_FILM_OPTIONS, writeStripFilm } from '../stripFilm.ts'

const LOW: Option<number> = {
  name: 'low',
  about: 'the least dose, in light units: band 1',
  needed: true,
  reads: doseOf('low dose', 20),
}

const HIGH: Option<number> = {
  name: 'high',
  about: 'the largest dose, in light units: the last band',
  needed: true,
  reads: doseOf('high dose', 90),
}

const COUNT: Option<number> = {
  name: 'bands',
  about: 'how many bands the strip has',
  needed: true,
  reads: numberIn(BANDS, { what: 'number of bands', units: '', like: 7, shown: 'N' }),
}

export const strip: Command = {
  name: 'strip',
  summary: 'the doses of a test strip, what to set on the counter for each band, and its film',
  places: [],
  options: [LOW, HIGH, COUNT, ...STRIP_FILM_OPTIONS],
  notes: [
    'Cover the whole strip, uncover the last band, set the first number; then uncover one more band before each further number. Keep the lid closed while the lamp is lit, and follow the manual of your unit.',
    'A film holds 3 to 12 bands, the largest dose on top. Its doses are rounded to what a counter can be set to: whole light units from 10 up, tenths below. Print it at full size on clear film, black; it is read from above the glass.',
  ],
  example: {
    line: 'strip --low 20 --high 90 --bands 5',
    prints: [
      'band 1  20 light units',
      'band 2  29.1 light units',
      'band 3  42.4 light units',
      'band 4  61.8 light units',
      'band 5  90 light units',
      'Set 28.2, 19.4, 13.3, 9.13, 20 one after another.',
      'Before the first uncover band 5; before each other, one band more.',
    ].join('\n'),
  },
  run: async (given, io) => {
    const [low, high] = [given.needs(LOW), given.needs(HIGH)]
    if (low >= high) {
      const message = `The low dose must lie below the high one. You wrote ${low} and ${high}.`
      throw new Failure('wrong input', message, { field: LOW.name })
    }
    const planned = planStrip({ lowLu: lu(low), highLu: lu(high), bands: given.needs(COUNT) })
    const film = await writeStripFilm(planned, given, io)
    if (film === null) return { record: planned, text: stripText(planned) }
    const text = `${stripText(film)}\nThese are the doses on the film: what a counter can be set to.`
    return { record: { ...planned, film }, text }
  },
}

function stripText({ bands, incrementsLu }: Pick<Strip, 'bands' | 'incrementsLu'>): string {
  const rows = bands.map(
    ({ number, doseLu }) =>
      `band ${String(number).padStart(String(bands.length).length)}  ${figures(doseLu)} light units`,
  )
  const settings = incrementsLu.map((increment) => figures(increment)).join(', ')
  return [
    ...rows,
    ...hung('', `Set ${settings} one after another.`),
    `Before the first uncover band ${bands.length}; before each other, one band more.`,
  ].join('\n')
}
