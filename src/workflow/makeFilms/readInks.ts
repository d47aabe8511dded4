import type { Lab } from '../../core/colour/space.ts'
import { Failure } from '../../core/failure.ts'
import { ANGLE } from '../../core/halftone/moire.ts'
import { isToneCurve, USUAL_PRINTED_TONES } from '../../core/halftone/toneCurve.ts'
import type { Ink, Mode } from '../../core/separation/plan.ts'
import { type Section, sectionOf } from '../section.ts'

const NAMED = 'the plan'
const OPACITY = { name: 'opacity', low: 0, high: 1, unit: '' }
const SHARE = { low: 0, high: 1, unit: '' }
const LONGEST_NAME = 80

/** How many inks each mode takes. */
const MOST: Readonly<Record<Mode, number>> = { single: 1, line: 16, spot: 6, process: 4 }

/**
 * Solids of process inks on coated paper.
 *
 * @source process-solids
 */
export const PROCESS_INKS: readonly Ink[] = [
  { name: 'cyan', lab: [55, -37, -50], opacity: 0, angleDeg: null },
  { name: 'magenta', lab: [48, 74, -3], opacity: 0, angleDeg: null },
  { name: 'yellow', lab: [89, -5, 93], opacity: 0, angleDeg: null },
  { name: 'black', lab: [16, 0, 0], opacity: 0, angleDeg: null },
]

const BLACK: Ink = { name: 'black', lab: [16, 0, 0], opacity: 1, angleDeg: null }

/** @throws Failure where the mode has too few or too many inks, or one of them is not whole */
export function inksFrom(plan: Section, mode: Mode): readonly Ink[] {
  const given = plan.raw('inks') ?? null
  if (given === null && mode === 'single') return [BLACK]
  if (given === null && mode === 'process') return PROCESS_INKS
  const needs = mode === 'line' || mode === 'spot'
  const like = 'must be a list of inks, like [{"name":"red","lab":[52,68,48],"opacity":0.9}]'
  if (!Array.isArray(given) || given.length === 0) throw plan.refusal('inks', like)
  if (given.length > MOST[mode]) {
    const words = mode === 'single' ? 'one ink' : `${MOST[mode]} inks at most`
    throw wrong('inks', `Mode "${mode}" prints ${words}, and ${NAMED} names ${given.length}.`)
  }
  const inks = given.map((value: unknown, at) =>
    inkFrom(value, { path: `inks[${at}]`, needsLab: needs, named: NAMED }),
  )
  const names = inks.map(({ name }) => name.toLowerCase())
  const twice = names.find((name, at) => names.indexOf(name) !== at)
  if (twice !== undefined) {
    throw wrong('inks', `Two inks are called "${twice}"; give each a name of its own.`)
  }
  refuseHighlights(inks, mode)
  refuseColours(inks, mode)
  return mode === 'process' ? inProcessOrder(inks) : inks
}

/** A table of tones is made of so many colours at most, whatever inks they are poured into. */
function refuseColours(inks: readonly Ink[], mode: Mode): void {
  const colours = inks.reduce((sum, { takes }) => sum + (takes?.length ?? 1), 0)
  if (mode !== 'spot' || colours <= MOST.spot) return
  throw wrong(
    'inks',
    `Mode "spot" parts ${MOST.spot} colours at most, and the inks take ${colours}; leave some out of takes, or use mode "line".`,
  )
}

/** Highlights are printed last, over tones of other inks. */
function refuseHighlights(inks: readonly Ink[], mode: Mode): void {
  const at = inks.findIndex(({ highlightsFrom }) => highlightsFrom !== undefined)
  if (at < 0 || (mode === 'spot' && at > 0 && at === inks.length - 1)) return
  throw wrong(
    `inks[${at}].highlightsFrom`,
    'An ink for highlights is the last of at least two, in mode "spot".',
  )
}

/** One ink. @throws Failure where it is not whole */
export function inkFrom(
  value: unknown,
  { path, needsLab, named }: Readonly<{ path: string; needsLab: boolean; named: string }>,
): Ink {
  const ink = sectionOf(value, { named, path })
  ink.allow([
    'name',
    'lab',
    'opacity',
    'angleDeg',
    'tones',
    'printed',
    'takes',
    'chokeUm',
    'spreadUm',
    'highlightsFrom',
  ])
  const name = ink.raw('name')
  if (typeof name !== 'string' || name.trim() === '' || name.length > LONGEST_NAME) {
    throw ink.refusal('name', 'must be a name like "red"')
  }
  const lab = labUnder(ink)
  if (lab === null && needsLab) throw ink.refusal('lab', LAB_WORDS)
  return {
    name: name.trim(),
    lab,
    opacity: ink.number('opacity', { range: OPACITY, absent: 0.5 }),
    angleDeg: ink.has('angleDeg') ? ink.number('angleDeg', { range: ANGLE, absent: 15 }) : null,
    ...tonesUnder(ink),
    ...printedUnder(ink),
    ...takesUnder(ink),
    ...(ink.has('chokeUm') || ink.has('spreadUm') ? { edgeUm: edgeUnder(ink) } : {}),
    ...(ink.has('highlightsFrom')
      ? { highlightsFrom: ink.number('highlightsFrom', { range: LIGHTNESS, absent: 0.85 }) }
      : {}),
  }
}

const EDGE = { low: 0, high: 2000, unit: 'um' }
/** Highlights begin where little but paper is left. */
const LIGHTNESS = { name: 'highlightsFrom', low: 0.3, high: 0.99, unit: '' }

/** How far edges move outward; inward where it is negative. */
export function edgeUnder(section: Section): number {
  const [chokeUm, spreadUm] = ['chokeUm', 'spreadUm'].map((key) =>
    section.number(key, { range: { name: key, ...EDGE }, absent: 0 }),
  ) as [number, number]
  if (chokeUm > 0 && spreadUm > 0) {
    throw section.refusal('spreadUm', 'must be left out, or chokeUm: both move the same edges')
  }
  return spreadUm - chokeUm
}

function tonesUnder(ink: Section): Pick<Ink, 'tones'> {
  if ((ink.raw('tones') ?? null) === null) return {}
  const tones = ink.inner('tones')
  tones.allow(['least', 'most', 'beyond'])
  const least = tones.number('least', { range: { ...SHARE, name: 'least' }, absent: 0 })
  const most = tones.number('most', { range: { ...SHARE, name: 'most' }, absent: 1 })
  if (least >= most) throw tones.refusal('most', 'must be more than least')
  const beyond = tones.has('beyond') ? tones.word('beyond', ['clip', 'scatter']) : 'clip'
  return { tones: { least, most, ...(beyond === 'scatter' ? { scatters: true } : {}) } }
}

/** Measured prints: what a tone of the film prints as. */
function printedUnder(ink: Section): Pick<Ink, 'printed'> {
  const given = ink.raw('printed') ?? null
  if (given === null) return {}
  if (given === 'usual') return { printed: USUAL_PRINTED_TONES }
  if (given === 'shop') {
    throw ink.refusal('printed', 'must be written out: "shop" is known on the page of films alone')
  }
  const list: readonly unknown[] = Array.isArray(given) ? given : []
  const pairs = list.filter(isPair)
  const isCurve = list.length > 0 && pairs.length === list.length && isToneCurve(pairs)
  if (isCurve && pairs.length <= MOST_PAIRS) return { printed: pairs }
  throw ink.refusal(
    'printed',
    'must be "usual" or pairs of film and print that rise, like [[0.25, 0.36], [0.5, 0.65]]',
  )
}

const MOST_PAIRS = 100

function isPair(value: unknown): value is readonly [number, number] {
  return Array.isArray(value) && value.length === 2 && value.every((one) => typeof one === 'number')
}

const LAB_WORDS = 'must be three numbers L, a, b, like [52, 68, 48]'

export function labUnder(section: Section, key: string = 'lab'): Lab | null {
  const given = section.raw(key) ?? null
  if (given === null) return null
  const lab = labOf(given)
  if (lab === null) throw section.refusal(key, LAB_WORDS)
  return lab
}

const MOST_TAKEN = 12

/** Colours of the artwork that become the ink. */
function takesUnder(ink: Section): Pick<Ink, 'takes'> {
  const given = ink.raw('takes') ?? null
  if (given === null) return {}
  const list: readonly unknown[] = Array.isArray(given) ? given : []
  const takes = list.map(labOf).filter((lab) => lab !== null)
  if (takes.length > 0 && takes.length === list.length && takes.length <= MOST_TAKEN) {
    return { takes }
  }
  throw ink.refusal('takes', `must be a list of up to ${MOST_TAKEN} colours, like [[52, 68, 48]]`)
}

function labOf(given: unknown): Lab | null {
  const list: readonly unknown[] = Array.isArray(given) ? given : []
  const [l, a, b] = list
  const isLab =
    list.length === 3 &&
    typeof l === 'number' &&
    typeof a === 'number' &&
    typeof b === 'number' &&
    l >= 0 &&
    l <= 100 &&
    Math.abs(a) <= 150 &&
    Math.abs(b) <= 150
  return isLab ? [l, a, b] : null
}

const INITIALS = [
  ['cyan', 'c'],
  ['magenta', 'm'],
  ['yellow', 'y'],
  ['black', 'k', 'key'],
]

/** Cyan, magenta, yellow, black by their names where all four are known, else as they stand. */
function inProcessOrder(inks: readonly Ink[]): readonly Ink[] {
  if (inks.length < 4) {
    throw wrong(
      'inks',
      `Mode "process" prints cyan, magenta, yellow and black; name all four or none.`,
    )
  }
  const ordered = INITIALS.map((words) =>
    inks.find(({ name }) => words.includes(name.toLowerCase())),
  )
  const known = ordered.filter((ink) => ink !== undefined)
  const chosen = known.length === 4 ? known : inks
  return chosen.map((ink, at) => ({ ...ink, lab: ink.lab ?? PROCESS_INKS[at]?.lab ?? null }))
}

function wrong(field: string, message: string): Failure {
  return new Failure('wrong input', message, { field })
}
