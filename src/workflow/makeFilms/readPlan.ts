import type { Lab } from '../../core/colour/space.ts'
import { Failure } from '../../core/failure.ts'
import { SEED } from '../../core/halftone/blueNoise.ts'
import { DOT_ORDERS, type DotShapeName } from '../../core/halftone/dotShapes.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'
import { ANGLE, RULING } from '../../core/halftone/moire.ts'
import { COVERAGE, COVERAGE_LIMIT } from '../../core/separation/inkLimit.ts'
import type { FilmPlan, Mode, Sheet } from '../../core/separation/plan.ts'
import { isIn } from '../../core/units/range.ts'
import { valueOfJson } from '../jsonText.ts'
import { type Section, sectionOf } from '../section.ts'
import { heldByFabric, pitchOf } from './readFabric.ts'
import { edgeUnder, inksFrom, labUnder, PROCESS_INKS } from './readInks.ts'

export const PLAN_BYTES_AT_MOST = 1_000_000

const NAMED = 'the plan'
const KEYS = [
  'widthMm',
  'heightMm',
  'scale',
  'resolutionDpi',
  'inks',
  'mode',
  'halftone',
  'chokeUm',
  'spreadUm',
  'underbase',
  'limits',
  'paper',
  'fabric',
  'marks',
  'sheet',
  'format',
]

const SIDE = { low: 1, high: 5000, unit: 'mm' }
const SCALE = { name: 'scale', low: 0.01, high: 100, unit: '' }
const DPI = { name: 'resolutionDpi', low: 50, high: 3000, unit: 'dpi' }
const EDGE = { low: 0, high: 2000, unit: 'um' }
const USUAL_DPI = 720
/** Where a plan says nothing of dots. */
export const USUAL_HALFTONE = {
  kind: 'dot',
  shape: 'round',
  rulingPerCm: 18,
  angleDeg: 22.5,
} as const
/** About a pitch of the fabrics that tones are usually printed on: a finer dot may print nothing. Judged. */
const USUAL_SCATTERED_UM = 110
/** A cell of fewer pixels a side holds no dot of any shape. */
const LEAST_CELL_PX = 4

/**
 * A plan out of a JSON text; what it leaves out takes a default, what it does not know is refused.
 *
 * @throws Failure 'wrong input' or 'unreadable file', naming the key
 */
export function planFromJson(text: string): FilmPlan {
  const plan = sectionOf(valueOfJson(text, { named: 'The plan' }), { named: NAMED })
  plan.allow(KEYS)
  const mode = plan.has('mode')
    ? plan.word<Mode>('mode', ['line', 'spot', 'process', 'single'])
    : refuse('mode', 'mode is missing: it must be "line", "spot", "process" or "single".')
  const resolutionDpi = plan.number('resolutionDpi', { range: DPI, absent: USUAL_DPI })
  return heldByFabric(plan, {
    size: sizeFrom(plan),
    resolutionDpi,
    mode,
    inks: inksFrom(plan, mode),
    halftone: halftoneFrom(plan, resolutionDpi),
    edgeUm: edgeUnder(plan),
    underbase: underbaseFrom(plan),
    ...limitsFrom(plan, mode),
    ...paperFrom(plan),
    marks: marksFrom(plan),
    sheet: sheetFrom(plan),
    formats: formatsFrom(plan),
  })
}

function refuse(field: string, message: string): never {
  throw new Failure('wrong input', message, { field })
}

function sizeFrom(plan: Section): FilmPlan['size'] {
  const given = ['widthMm', 'heightMm', 'scale'].filter((key) => plan.has(key))
  const [one = 'scale', other] = given
  if (other !== undefined) {
    refuse(other, `${one} and ${other} both say the size; keep one of them in the plan.`)
  }
  if (one === 'widthMm') {
    return {
      kind: 'width',
      widthMm: plan.number(one, { range: { name: one, ...SIDE }, absent: 200 }),
    }
  }
  if (one === 'heightMm') {
    const heightMm = plan.number(one, { range: { name: one, ...SIDE }, absent: 200 })
    return { kind: 'height', heightMm }
  }
  return { kind: 'scale', scale: plan.number('scale', { range: SCALE, absent: 1 }) }
}

/** null under a key is as good as no key. */
function innerOrNull(plan: Section, key: string): Section | null {
  return (plan.raw(key) ?? null) === null ? null : plan.inner(key)
}

function halftoneFrom(plan: Section, resolutionDpi: number): Halftone | null {
  if (plan.raw('halftone') === null) return null
  if (!plan.has('halftone')) return USUAL_HALFTONE
  const halftone = plan.inner('halftone')
  const kind = halftone.word('kind', ['dot', 'stochastic'])
  if (kind === 'stochastic') {
    halftone.allow(['kind', 'seed', 'dotUm'])
    const seed = halftone.number('seed', { range: SEED, absent: 1 })
    const range = { name: 'dotUm', low: 5, high: 2000, unit: 'um' }
    return {
      kind,
      seed,
      dotUm: halftone.number('dotUm', { range, absent: pitchOf(plan) ?? USUAL_SCATTERED_UM }),
    }
  }
  halftone.allow(['kind', 'shape', 'rulingPerCm', 'angleDeg'])
  const shapes: DotShapeName[] = ['round', 'elliptical', 'line']
  const shape = halftone.word(
    'shape',
    shapes.filter((name) => name in DOT_ORDERS),
  )
  const { rulingPerCm: usual, angleDeg: turn } = USUAL_HALFTONE
  const rulingPerCm = halftone.number('rulingPerCm', { range: RULING, absent: usual })
  const finest = resolutionDpi / 2.54 / LEAST_CELL_PX
  if (rulingPerCm > finest) {
    const most = Math.floor(10 * finest) / 10
    refuse(
      'halftone.rulingPerCm',
      `halftone.rulingPerCm is finer than ${resolutionDpi} dpi can draw, which is ${most} lines a cm; ${NAMED} says ${rulingPerCm}.`,
    )
  }
  return {
    kind,
    shape,
    rulingPerCm,
    angleDeg: halftone.number('angleDeg', { range: ANGLE, absent: turn }),
  }
}

/** What may lie at one place; more than dries is not taken. */
function limitsFrom(plan: Section, mode: Mode): Pick<FilmPlan, 'limits'> {
  const limits = innerOrNull(plan, 'limits')
  if (limits === null) return {}
  if (mode === 'process') {
    limits.allow(['coverage'])
    const coverage = limits.number('coverage', { range: COVERAGE, absent: COVERAGE_LIMIT })
    return { limits: { coverage, inks: PROCESS_INKS.length } }
  }
  if (mode !== 'spot') {
    refuse(
      'limits',
      'limits are for tones on each other, mode "spot" or "process"; leave them out.',
    )
  }
  limits.allow(['coverage', 'inks'])
  const solids = { ...COVERAGE, high: COVERAGE_LIMIT }
  const count = { name: 'inks', low: 1, high: 6, unit: 'inks', whole: true }
  return {
    limits: {
      coverage: limits.number('coverage', { range: solids, absent: COVERAGE_LIMIT }),
      inks: limits.number('inks', { range: count, absent: 6 }),
    },
  }
}

const WHITE_INK: Lab = [96, 0, 1]
const USUAL_CHOKE_UM = 150

function underbaseFrom(plan: Section): FilmPlan['underbase'] {
  const underbase = innerOrNull(plan, 'underbase')
  if (underbase === null) return null
  underbase.allow(['name', 'lab', 'chokeUm'])
  const name = underbase.raw('name') ?? 'underbase'
  if (typeof name !== 'string' || name.trim() === '') {
    throw underbase.refusal('name', 'must be a name like "white"')
  }
  const range = { name: 'chokeUm', ...EDGE }
  return {
    name: name.trim(),
    lab: labUnder(underbase) ?? WHITE_INK,
    chokeUm: underbase.number('chokeUm', { range, absent: USUAL_CHOKE_UM }),
  }
}

function paperFrom(plan: Section): Pick<FilmPlan, 'paper'> {
  const lab = (plan.raw('paper') ?? null) === null ? null : labUnder(plan, 'paper')
  return lab === null ? {} : { paper: lab }
}

function marksFrom(plan: Section): FilmPlan['marks'] {
  const marks = innerOrNull(plan, 'marks')
  const names = ['registration', 'label', 'scaleBar', 'stepStrip'] as const
  marks?.allow(names)
  const asked = (name: (typeof names)[number]): boolean => {
    const given = marks?.raw(name) ?? false
    if (typeof given === 'boolean') return given
    throw (marks ?? plan).refusal(name, 'must be true or false')
  }
  return {
    registration: asked('registration'),
    label: asked('label'),
    scaleBar: asked('scaleBar'),
    stepStrip: asked('stepStrip'),
  }
}

function sheetFrom(plan: Section): FilmPlan['sheet'] {
  const sheet = innerOrNull(plan, 'sheet')
  if (sheet === null) return null
  sheet.allow(['widthMm', 'heightMm', 'overlapMm', 'cutMarks', 'nest'])
  const side = (key: string): number => {
    if (!sheet.has(key)) throw sheet.refusal(key, 'must be a number of mm, like 210')
    return sheet.number(key, { range: { name: key, low: 50, high: 5000, unit: 'mm' }, absent: 210 })
  }
  const [widthMm, heightMm] = [side('widthMm'), side('heightMm')]
  const range = { name: 'overlapMm', low: 0, high: 200, unit: 'mm' }
  const overlapMm = sheet.number('overlapMm', { range, absent: 10 })
  if (!isIn(overlapMm, { ...range, high: Math.min(widthMm, heightMm) / 2 })) {
    throw sheet.refusal('overlapMm', 'must be less than half of the sheet')
  }
  const asked = (key: 'cutMarks' | 'nest'): Partial<Sheet> => {
    const given = sheet.raw(key) ?? false
    if (typeof given !== 'boolean') throw sheet.refusal(key, 'must be true or false')
    return given ? { [key]: true } : {}
  }
  return { widthMm, heightMm, overlapMm, ...asked('cutMarks'), ...asked('nest') }
}

function formatsFrom(plan: Section): FilmPlan['formats'] {
  const given = plan.raw('format') ?? ['pdf', 'tiff']
  const list: readonly unknown[] = Array.isArray(given) ? given : [given]
  const formats = (['pdf', 'tiff'] as const).filter((format) => list.includes(format))
  const others = list.filter((format) => format !== 'pdf' && format !== 'tiff')
  if (formats.length === 0 || others.length > 0) {
    throw plan.refusal('format', 'must be a list of "pdf" and "tiff", or of one of them')
  }
  return formats
}
