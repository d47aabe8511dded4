import type { MatSize } from '../../workflow/papers/matLayout.ts'
import { FORCE_SWITCH, type Option } from '../arguments.ts'
import type { Command } from '../command.ts'
import { oneOf, path } from '../reads.ts'

const SIZE: Option<MatSize> = {
  name: 'size',
  about: 'the sheet: a4, letter or a3; a4 unless given',
  needed: false,
  reads: oneOf(['a4', 'letter', 'a3'], { what: 'sheet', shown: 'a4|letter|a3' }),
}

const OUT: Option<string> = {
  name: 'out',
  about: 'the PDF to write',
  needed: true,
  reads: path({ what: 'mat', shown: 'MAT.pdf' }),
}

export const mat: Command = {
  name: 'mat',
  summary: 'a sheet to print: photos of films taken through its window are read without more ado',
  places: [],
  options: [SIZE, OUT, FORCE_SWITCH],
  notes: [
    'Print it at full size on white paper and measure its bar with a ruler. A film larger than the window lies under it, and what the window shows is read.',
    'Lay it on a light table, never on the glass of a lit exposure unit: ultraviolet light harms eyes and skin.',
  ],
  example: {
    line: 'mat --size a4 --out mat.pdf',
    prints: 'The mat is written: a window of 166 x 199 mm for the film, a slot for the step wedge.',
  },
  run: async (given) => {
    const out = given.needs(OUT)
    const size = given.of(SIZE) ?? 'a4'
    const overwriting = { force: given.has(FORCE_SWITCH) }
    const { refuseExisting, writeWhole } = await import('../../decode/files.ts')
    await refuseExisting(out, overwriting)
    const { openLetters } = await import('../../decode/glyphs.ts')
    const { deflater } = await import('../../decode/deflater.ts')
    const { writeFilmPdf } = await import('../../formats/filmPdf.ts')
    const { matPage } = await import('../../workflow/papers/mat.ts')
    const { matLayout } = await import('../../workflow/papers/matLayout.ts')
    const page = matPage({ size }, { letters: await openLetters() })
    await writeWhole(out, overwriting, (sink) =>
      writeFilmPdf([page], {
        sink,
        deflater: deflater({ level: 9 }),
        ink: 'grey',
        title: 'Reading mat',
      }),
    )
    const { window, slot } = matLayout(size)
    const [widthMm, heightMm] = [window.widthMm, window.heightMm].map((mm) => Number(mm.toFixed(1)))
    return {
      record: { kind: 'mat', size, window, slot },
      text: `The mat is written: a window of ${widthMm} x ${heightMm} mm for the film, a slot for the step wedge.`,
    }
  },
}
