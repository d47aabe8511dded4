// Seeded cases for the bench of the belief: five years of a shop, and problems of a new one.
export const WEDGE = { steps: 21, firstDensity: 0.05, increment: 0.15 }
const MEDIA = ['soft pencil', 'drawing ink', 'laser toner', 'opaque paint', 'inkjet film']
const FABRICS = ['90-48', '77-55', '120-34']
const USUAL_LU = [41, 54, 65, 75, 90]
const GRADES = ['washed off', 'soft', 'good', 'filling', 'filled']
const ENTRIES_A_DAY = 5

/** Evidence of five years, each day five entries: a wedge on a margin, screens, a strip now and then. */
export function fiveYears({ entries, seed = 11 }) {
  const { uniform, normal, one } = randomFrom(seed)
  const days = Math.ceil(entries / ENTRIES_A_DAY)
  return Array.from({ length: entries }, (_, at) => {
    const turn = Math.floor(at / ENTRIES_A_DAY)
    const day = Math.floor((turn * 5 * 365) / days)
    const where = {
      day,
      lampHours: 100 + ((turn * 3) % 1000),
      unit: turn % 7 === 3 ? 'small lamp' : 'big lamp',
      emulsion: `bucket ${Math.floor(day / 40)}`,
      fabric: one(FABRICS),
      recipe: 'house',
      screen: `screen ${at % ENTRIES_A_DAY} of day ${day}`,
      film: `film ${Math.floor(at / 2)}`,
    }
    if (at % ENTRIES_A_DAY === 0) {
      const mu = (Math.log10(60) - 0.05 - 1.02 - 0.05 * normal()) / 0.15 + 1
      const lastSolidStep = Math.floor(mu + 0.5 * normal())
      const firstClearStep = Math.floor(mu + 1.6 + 0.5 * normal()) + 1
      return { kind: 'wedge', doseLu: 60, wedge: WEDGE, lastSolidStep, firstClearStep, ...where }
    }
    const medium = Math.floor(uniform() * MEDIA.length)
    const marks = { medium: MEDIA[medium] }
    if (at % 53 === 7) return { kind: 'strip', marks, bands: strip({ uniform, normal }), ...where }
    const grade = uniform() < 0.75 ? 'good' : one(GRADES)
    const doseLu = USUAL_LU[medium] * 10 ** (0.05 * normal())
    return { kind: 'outcome', marks, doseLu, grade, ...where }
  })
}

/** A new shop's problem: four wedges, two strips of seven bands, six screens, three askings. */
export function problem(seed) {
  const { uniform, normal, one } = randomFrom(seed)
  const evidence = Array.from({ length: 12 }, (_, at) => {
    const where = { day: 5 * at, unit: 'lamp', emulsion: at < 8 ? 'a' : 'b', fabric: '90-48' }
    const medium = at % 3
    const marks = { medium: MEDIA[medium] }
    if (at % 3 === 0) {
      const lastSolidStep = 5 + Math.floor(3 * uniform())
      const firstClearStep = lastSolidStep + 2 + Math.floor(2 * uniform())
      return { kind: 'wedge', doseLu: 60, wedge: WEDGE, lastSolidStep, firstClearStep, ...where }
    }
    if (at === 1 || at === 8) {
      return { kind: 'strip', marks, bands: strip({ uniform, normal }), ...where }
    }
    const grade = uniform() < 0.75 ? 'good' : one(GRADES)
    const doseLu = USUAL_LU[medium] * 10 ** (0.05 * normal())
    return { kind: 'outcome', marks, doseLu, grade, ...where }
  })
  const ask = MEDIA.slice(0, 3).map((medium) => ({
    day: 60,
    unit: 'lamp',
    emulsion: 'b',
    fabric: '90-48',
    marks: [{ medium }],
  }))
  return { evidence, ask }
}

function strip({ uniform, normal }) {
  const [hold, sound, fog] = [1.05 + 0.1 * normal(), 1.45 + 0.1 * normal(), 1.8 + 0.15 * normal()]
  return [15, 21, 30, 42, 60, 85, 120].map((doseLu) => {
    const x = Math.log10(doseLu)
    if (uniform() < 0.02) return { doseLu, grade: 'filling' }
    if (x < hold) return { doseLu, grade: 'washed off' }
    if (x > fog + 0.1) return { doseLu, grade: 'filled' }
    if (x > fog) return { doseLu, grade: 'filling' }
    return { doseLu, grade: x > sound ? 'good' : 'soft' }
  })
}

/** Marsaglia's xorshift over 32 bits, thinned by a multiplier; Box and Muller's normal draws. */
function randomFrom(seed) {
  let state = (seed * 2654435761) >>> 0 || 1
  const uniform = () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    state >>>= 0
    return (Math.imul(state, 0x9e3779b1) >>> 0) / 2 ** 32
  }
  for (let at = 0; at < 20; at++) uniform()
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
  return { uniform, normal, one: (of) => of[Math.floor(uniform() * of.length)] }
}
