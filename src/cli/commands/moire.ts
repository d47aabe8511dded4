import { THREADS_PER_CM } from '../../core/fabric/geometry.ts'
import { ANGLE, type Moire, moire as moireOf, RULING, VIEWING } from '../../core/halftone/moire.ts'
import type { Option } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns, figures } from '../figures.ts'
import { numberIn } from '../reads.ts'

const COUNT: Option<number> = {
  name: 'threads-per-cm',
  about: "the fabric's thread count",
  needed: true,
  reads: numberIn(THREADS_PER_CM, {
    what: 'thread count',
    units: 'threads per cm',
    like: 90,
    shown: 'N',
  }),
}

const FREQUENCY: Option<number> = {
  name: 'ruling-per-cm',
  about: 'the ruling of the halftone',
  needed: true,
  reads: numberIn(RULING, { what: 'ruling', units: 'lines per cm', like: 18, shown: 'F' }),
}

const HALFTONE_ANGLE: Option<number> = {
  name: 'angle-deg',
  about: 'the angle of the halftone, counter-clockwise from the threads of a fabric at 0',
  needed: true,
  reads: numberIn(ANGLE, { what: 'angle', units: 'degrees', like: 22.5, shown: 'A' }),
}

const MESH_ANGLE: Option<number> = {
  name: 'mesh-angle-deg',
  about: 'how the fabric is turned on its frame; 0 unless given',
  needed: false,
  reads: numberIn(ANGLE, { what: 'mesh angle', units: 'degrees', like: 7.5, shown: 'B' }),
}

const FROM: Option<number> = {
  name: 'viewing-mm',
  about: 'from how far the print is looked at; 300 unless given',
  needed: false,
  reads: numberIn(VIEWING, { what: 'viewing distance', units: 'mm', like: 300, shown: 'MM' }),
}

export const moire: Command = {
  name: 'moire',
  summary: 'what pattern a ruling makes with a fabric, and an angle and ruling that show less',
  places: [],
  options: [COUNT, FREQUENCY, HALFTONE_ANGLE, MESH_ANGLE, FROM],
  notes: [
    'Cloth is off its nominal count by a hundredth or so once it is stretched: print a test of the whole range of tones before an edition.',
  ],
  example: {
    line: 'moire --threads-per-cm 77 --ruling-per-cm 24 --angle-deg 45',
    prints: [
      'A strong pattern.',
      '  every 1.1 mm    across 0 degrees',
      '  every 1.1 mm    across 90 degrees',
      '  every 0.776 mm  across 45 degrees',
      'Better: 33.5 degrees with 21.6 lines a cm.',
    ].join('\n'),
  },
  run: async (given) => {
    const found = moireOf({
      threadsPerCm: given.needs(COUNT),
      rulingPerCm: given.needs(FREQUENCY),
      angleDeg: given.needs(HALFTONE_ANGLE),
      meshAngleDeg: given.of(MESH_ANGLE) ?? 0,
      viewingMm: given.of(FROM) ?? 300,
    })
    return {
      record: found,
      text: moireText(found, given.needs(HALFTONE_ANGLE), given.needs(FREQUENCY)),
    }
  },
}

const SHOWN = 3

const VERDICTS: Readonly<Record<Moire['verdict'], string>> = {
  'none to be seen': 'No pattern to be seen.',
  faint: 'A faint pattern.',
  strong: 'A strong pattern.',
}

function moireText(
  { verdict, beats, advice }: Moire,
  angleDeg: number,
  rulingPerCm: number,
): string {
  const seen = beats.filter(({ visibility }) => visibility > 0).slice(0, SHOWN)
  const rows = seen.map(({ periodMm, angleDeg: across }) => {
    const often = periodMm === null ? 'none while cloth is true' : `every ${figures(periodMm)} mm`
    return [`  ${often}`, `across ${figures(across)} degrees`] as const
  })
  const stays = advice.angleDeg === angleDeg && advice.rulingPerCm === rulingPerCm
  const better = `Better: ${figures(advice.angleDeg, 4)} degrees with ${figures(advice.rulingPerCm, 4)} lines a cm.`
  const none = 'Nothing near it shows less.'
  const last = stays ? (verdict === 'none to be seen' ? [] : [none]) : [better]
  return [VERDICTS[verdict], ...(rows.length === 0 ? [] : [columns(rows)]), ...last].join('\n')
}
