import {
  DEFAULT_BLEACHING_EMULSION,
  DEFAULT_EMULSION,
  EMULSION_RANGES,
  type Emulsion,
  usualAnchorDepthUm,
} from '../core/emulsion/emulsion.ts'
import { THREAD, THREADS_PER_CM } from '../core/fabric/geometry.ts'
import { Failure } from '../core/failure.ts'
import { CONTACT_GAP, effectiveGapUm, FILM_BASE, IMAGE_SIDES } from '../core/film/contact.ts'
import { BASE_DENSITY } from '../core/film/density.ts'
import {
  discRadiusUm,
  HALO_LENGTH,
  HALO_WEIGHT,
  SOURCE_REACH,
  sourceReachUm,
} from '../core/forecast/spread.ts'
import { LAMP_DISTANCE } from '../core/light/doseField.ts'
import { density, lu, mm, perCm, share, um } from '../core/units/quantity.ts'
import { isIn, type Range } from '../core/units/range.ts'
import { valueOfJson } from './jsonText.ts'
import { type Section, sectionOf } from './section.ts'
import { DEFAULT_BANK, DEFAULT_POINT, DEFAULT_SETUP, type Lamp, type Setup } from './setup.ts'

/** Setups are a page of text; anything longer is another file. */
export const SETUP_BYTES_AT_MOST = 1_000_000

const NAMED = 'the setup'
const SOURCE_RADIUS: Range = { name: 'sourceRadiusMm', low: 0, high: 1000, unit: 'mm' }
const REFRACTIVE_INDEX: Range = { name: 'refractiveIndex', low: 1, high: 3, unit: '' }

const SECTIONS = ['lamp', 'contact', 'emulsion', 'scatter', 'fabric']
const OF_EVERY_COAT = ['model', 'thicknessUm', 'anchorDepthUm', 'refractiveIndex']
const OF_ABSORBING = ['gelDoseLu', 'penetrationDepthUm']
const OF_BLEACHING = ['aPerUm', 'bPerUm', 'cPerLu', 'gelShare']

/**
 * Reads the text of a `setup.json`. A key that is not given takes the value of DEFAULT_SETUP.
 *
 * @throws Failure for what is no JSON, an unknown or doubled key, a value out of its range; the
 * field is the key with its section, like `lamp.distanceMm`
 */
export function setupFromJson(text: string): Setup {
  return setupFrom(setupValue(text))
}

/** What the text of a `setup.json` says, not yet held to what a setup may be. */
export function setupValue(text: string): unknown {
  if (text.length > SETUP_BYTES_AT_MOST) {
    throw new Failure('too large', `The setup is longer than a megabyte: this is another file.`)
  }
  return valueOfJson(text, { named: 'The setup' })
}

/** The same from a value that was read already. */
export function setupFrom(value: unknown): Setup {
  const top = sectionOf(value, { named: NAMED })
  top.allow(SECTIONS)
  const emulsion = top.inner('emulsion')
  const setup: Setup = {
    lamp: lampFrom(top.inner('lamp')),
    contact: contactFrom(top.inner('contact')),
    emulsion: emulsionFrom(emulsion),
    refractiveIndex: emulsion.number('refractiveIndex', {
      range: REFRACTIVE_INDEX,
      absent: DEFAULT_SETUP.refractiveIndex,
    }),
    scatter: scatterFrom(top.inner('scatter')),
    fabric: fabricFrom(top.inner('fabric')),
  }
  refuseWideSpread(setup)
  return setup
}

function lampFrom(lamp: Section): Lamp {
  const kind = lamp.word('kind', ['point', 'bank'])
  const absent = kind === 'bank' ? DEFAULT_BANK : DEFAULT_POINT
  const ofPoint = { sourceRadiusMm: 'a bank has no source radius, only a point lamp has' }
  lamp.allow(
    kind === 'bank' ? ['kind', 'distanceMm'] : ['kind', 'distanceMm', 'sourceRadiusMm'],
    ofPoint,
  )
  const distanceMm = mm(
    lamp.number('distanceMm', { range: LAMP_DISTANCE, absent: absent.distanceMm }),
  )
  if (kind === 'bank') return { kind, distanceMm }
  const radius = { range: SOURCE_RADIUS, absent: DEFAULT_POINT.sourceRadiusMm }
  return { kind, distanceMm, sourceRadiusMm: mm(lamp.number('sourceRadiusMm', radius)) }
}

function contactFrom(contact: Section): Setup['contact'] {
  contact.allow(['gapUm', 'filmBaseUm', 'filmBaseDensity', 'imageSide'])
  const { gapUm, filmBaseUm, filmBaseDensity } = DEFAULT_SETUP.contact
  return {
    gapUm: um(contact.number('gapUm', { range: CONTACT_GAP, absent: gapUm })),
    filmBaseUm: um(contact.number('filmBaseUm', { range: FILM_BASE, absent: filmBaseUm })),
    filmBaseDensity: density(
      contact.number('filmBaseDensity', { range: BASE_DENSITY, absent: filmBaseDensity }),
    ),
    imageSide: contact.word('imageSide', IMAGE_SIDES),
  }
}

function emulsionFrom(emulsion: Section): Emulsion {
  const model = emulsion.word('model', ['absorbing', 'bleaching'])
  const [own, others] =
    model === 'absorbing' ? [OF_ABSORBING, OF_BLEACHING] : [OF_BLEACHING, OF_ABSORBING]
  const other = model === 'absorbing' ? 'bleaching' : 'absorbing'
  const reason = `it belongs to the ${other} model and emulsion.model is ${model}`
  emulsion.allow([...OF_EVERY_COAT, ...own], Object.fromEntries(others.map((key) => [key, reason])))
  const number = (key: keyof typeof EMULSION_RANGES, absent: number): number =>
    emulsion.number(key, { range: EMULSION_RANGES[key], absent })

  const thicknessUm = um(number('thicknessUm', DEFAULT_EMULSION.thicknessUm))
  const anchorDepthUm = um(number('anchorDepthUm', usualAnchorDepthUm(thicknessUm)))
  if (anchorDepthUm > thicknessUm) {
    const message = `emulsion.anchorDepthUm must not be deeper than emulsion.thicknessUm, ${thicknessUm} um; ${NAMED} says ${anchorDepthUm}.`
    throw new Failure('wrong input', message, { field: 'emulsion.anchorDepthUm' })
  }
  if (model === 'absorbing') {
    const { gelDoseLu, penetrationDepthUm } = DEFAULT_EMULSION
    return {
      model,
      gelDoseLu: lu(number('gelDoseLu', gelDoseLu)),
      penetrationDepthUm: um(number('penetrationDepthUm', penetrationDepthUm)),
      thicknessUm,
      anchorDepthUm,
    }
  }
  const { aPerUm, bPerUm, cPerLu, gelShare } = DEFAULT_BLEACHING_EMULSION
  return {
    model,
    aPerUm: number('aPerUm', aPerUm),
    bPerUm: number('bPerUm', bPerUm),
    cPerLu: number('cPerLu', cPerLu),
    gelShare: share(number('gelShare', gelShare)),
    thicknessUm,
    anchorDepthUm,
  }
}

function scatterFrom(scatter: Section): Setup['scatter'] {
  scatter.allow(['lengthUm', 'weight'])
  const { lengthUm, weight } = DEFAULT_SETUP.scatter
  return {
    lengthUm: um(scatter.number('lengthUm', { range: HALO_LENGTH, absent: lengthUm })),
    weight: share(scatter.number('weight', { range: HALO_WEIGHT, absent: weight })),
  }
}

function fabricFrom(fabric: Section): Setup['fabric'] {
  fabric.allow(['threadsPerCm', 'threadUm'])
  const absent = DEFAULT_SETUP.fabric
  const threadsPerCm = fabric.number('threadsPerCm', {
    range: THREADS_PER_CM,
    absent: absent.threadsPerCm,
  })
  const threadUm = fabric.number('threadUm', { range: THREAD, absent: absent.threadUm })
  if (threadsPerCm * threadUm >= 10_000) {
    const message = `fabric.threadUm leaves no opening: ${threadsPerCm} threads a cm stand ${Math.floor(10_000 / threadsPerCm)} um apart; ${NAMED} says ${threadUm} um thick.`
    throw new Failure('wrong input', message, { field: 'fabric.threadUm' })
  }
  return { threadsPerCm: perCm(threadsPerCm), threadUm: um(threadUm) }
}

/** Each number can be in its range and all of them together still blur the picture to nothing. */
function refuseWideSpread({ lamp, contact, emulsion, refractiveIndex }: Setup): void {
  const gapUm = effectiveGapUm(contact)
  const { thicknessUm } = emulsion
  const reachUm = sourceReachUm(
    lamp.kind === 'bank'
      ? { kind: 'bank', gapUm }
      : { kind: 'disc', radiusUm: discRadiusUm(lamp, { gapUm, thicknessUm, refractiveIndex }) },
  )
  if (isIn(reachUm, SOURCE_REACH)) return
  const most = SOURCE_REACH.high / 1000
  const message = `contact.gapUm and the lamp blur the picture over more than ${most} mm, which is no exposure: lay the film closer or the lamp farther away.`
  throw new Failure('wrong input', message, { field: 'contact.gapUm' })
}
