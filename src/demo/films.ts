import type { Film } from '../raster/film.ts'
import { type Canvas, clearCanvas, filmOf } from './canvas.ts'
import { type Cut, cutFilm } from './marks/cut.ts'
import { drawKettle } from './motifs/kettle.ts'
import { kettleCuts, pearCuts } from './motifs/kettleBlocks.ts'
import { drawLowWater } from './motifs/lowWater.ts'
import { posterCuts } from './motifs/poster.ts'
import { type Random, randomFrom } from './random.ts'

export type DemoFilmName = 'brushAndWash' | 'softPencil' | 'cutMask' | 'pearBlock' | 'kettleBlock'

/** Marks a dose must be chosen for: a round patch, its middle in mm from the sheet's top left. */
export type WeakPassage = Readonly<{ what: string; xMm: number; yMm: number; radiusMm: number }>

/** A film positive made by seeded code: the same drawing at every resolution. */
export type DemoFilm = Readonly<{
  name: DemoFilmName
  title: string
  /** A medium of the shop's list. */
  medium: 'drawing ink' | 'soft pencil' | 'cut masking film'
  widthMm: number
  heightMm: number
  /** Resolution it is drawn at unless another is asked for. */
  resolutionDpi: number
  seed: number
  weakPassages: readonly WeakPassage[]
  /** Draws it now: brush and pencil whole, 2 bytes a pixel; the cut film band by band. */
  draw: (options?: Readonly<{ resolutionDpi?: number; seed?: number }>) => Film
}>

type Plan = Omit<DemoFilm, 'draw'>

/** The films of the Quillfield Print Room, an invented place: demo. */
export const DEMO_FILMS: Readonly<Record<DemoFilmName, DemoFilm>> = {
  brushAndWash: drawn(
    {
      name: 'brushAndWash',
      title: 'Low water',
      medium: 'drawing ink',
      widthMm: 297,
      heightMm: 210,
      resolutionDpi: 600,
      seed: 4680,
      weakPassages: [{ what: 'headland, the palest wash', xMm: 268, yMm: 79, radiusMm: 4 }],
    },
    drawLowWater,
  ),
  softPencil: drawn(
    {
      name: 'softPencil',
      title: 'Kettle and three pears',
      medium: 'soft pencil',
      widthMm: 210,
      heightMm: 297,
      resolutionDpi: 600,
      seed: 1702,
      weakPassages: [
        { what: 'stripes of the cloth, drawn lightly', xMm: 44, yMm: 224, radiusMm: 12 },
      ],
    },
    drawKettle,
  ),
  cutMask: cut(
    {
      name: 'cutMask',
      title: 'Open night',
      medium: 'cut masking film',
      widthMm: 297,
      heightMm: 420,
      resolutionDpi: 720,
      seed: 311,
      weakPassages: [{ what: 'two bars of 0.15 mm', xMm: 28.3, yMm: 403.5, radiusMm: 2 }],
    },
    posterCuts,
  ),
  pearBlock: cut(blockOf({ name: 'pearBlock', title: 'Three pears, flat', seed: 1703 }), pearCuts),
  kettleBlock: cut(blockOf({ name: 'kettleBlock', title: 'Kettle, flat', seed: 1704 }), kettleCuts),
}

/** A flat colour under the pencil drawing, on a sheet of the same size. */
function blockOf(block: Pick<Plan, 'name' | 'title' | 'seed'>): Plan {
  return {
    ...block,
    medium: 'cut masking film',
    widthMm: 210,
    heightMm: 297,
    resolutionDpi: 150,
    weakPassages: [],
  }
}

function drawn(plan: Plan, motif: (canvas: Canvas, random: Random) => void): DemoFilm {
  return {
    ...plan,
    draw: ({ resolutionDpi = plan.resolutionDpi, seed = plan.seed } = {}) => {
      const canvas = clearCanvas(plan, resolutionDpi)
      motif(canvas, randomFrom(seed))
      return filmOf(canvas)
    },
  }
}

function cut(plan: Plan, motif: (random: Random) => readonly Cut[]): DemoFilm {
  return {
    ...plan,
    draw: ({ resolutionDpi = plan.resolutionDpi, seed = plan.seed } = {}) =>
      cutFilm(plan, { cuts: motif(randomFrom(seed)), resolutionDpi }),
  }
}
