import { mediumEstimate } from '../core/calibration/belief/estimates.ts'
import { PRIORS } from '../core/calibration/belief/priors.ts'
import type { Belief } from '../core/calibration/belief/state.ts'
import type { DosePlan } from '../core/emulsion/dosePlan.ts'
import { adviceFor } from '../core/emulsion/latitudeWords.ts'
import { mediumNamed } from '../core/film/media.ts'
import type { Heard } from './lightHeard.ts'
import type { CountsIn, LightExposure, LightShop } from './lightRecords.ts'
import type { CounterDoses } from './lightSetup.ts'

type Grounds = Readonly<{
  belief: Belief
  shop: LightShop
  heard: Heard
  doses: CounterDoses
  fogLu: number
  /** What is recommended, on the counter. */
  doseLu: number
  /** Likewise for another screen coated alike; null where nothing was read on this coat itself. */
  otherCoatLu: number | null
}>

/** What the number rests on, in whole sentences, the most telling first. */
export function lightReasons(exposure: LightExposure, grounds: Grounds): readonly string[] {
  return [
    aboutReadings(exposure, grounds),
    aboutMarks(exposure, grounds),
    aboutGround(exposure, grounds),
    ...aboutScreen(exposure),
    ...aboutOwnCoat(exposure, grounds),
    ...aboutBase(exposure, grounds.shop),
    ...aboutPlace(exposure),
    ...aboutCounter(exposure),
  ]
}

/** What to do at the bench and the sink; doses in the words of the unit's counter. */
export function lightAdvice(plan: DosePlan, countsIn: CountsIn): readonly string[] {
  const said = adviceFor(plan)
  return said.map((sentence) =>
    sentence.replace(/(\d) lu\b/g, (_, digit: string) => `${digit} ${countsIn}`),
  )
}

function aboutReadings({ subject }: LightExposure, { heard }: Grounds): string {
  const { tests, outcomes, ofTheseMarks } = heard
  const what = subject.kind === 'medium' ? subject.name : 'this film'
  if (tests + outcomes === 0) {
    return `A first guess: nobody has told us yet how ${what} comes out here, so it rests on what is usual elsewhere.`
  }
  const parts = [
    tests === 0 ? '' : plural(tests, 'test', 'tests'),
    outcomes === 0 ? '' : plural(outcomes, 'screen', 'screens'),
  ].filter((part) => part !== '')
  const rests = `It rests on ${parts.join(' and ')} of this room`
  if (subject.kind === 'film') return `${rests}, and on the film itself as it was read.`
  const own =
    ofTheseMarks === 0
      ? `none of them with ${what}`
      : `${ofTheseMarks === tests + outcomes ? 'all' : ofTheseMarks} of them with ${what}`
  return `${rests}, ${own}.`
}

function aboutMarks(
  { subject, unit }: LightExposure,
  { belief, doses, fogLu, doseLu }: Grounds,
): string {
  const upTo = `they stay open up to about ${amount(fogLu)} ${unit.countsIn}`
  if (subject.kind === 'film') {
    const { xMm, yMm, effectiveDensity } = subject.marks.weakest
    const place = `${Math.round(xMm)} mm from the left and ${Math.round(yMm)} mm from the top`
    const all = `The weakest mark of ${subject.name} lies ${place}, density ${effectiveDensity.toFixed(2)} with the light from beside it`
    const firstLu = doses.gelDoseLu * 10 ** effectiveDensity
    if (firstLu > doseLu)
      return `${all}: it stays open up to about ${amount(firstLu)} ${unit.countsIn}.`
    return `${all}: it closes from about ${amount(firstLu)} ${unit.countsIn}, and nearly all the others stay open up to about ${amount(fogLu)}; what must not be lost there wants going over once more.`
  }
  const { value } = mediumEstimate(belief, subject.name)
  const known = mediumNamed(subject.name) !== null
  const whose = known
    ? `The weakest marks in ${subject.name} have a density of about ${value.toFixed(1)}`
    : `Nobody has told us how dense ${subject.name} is, so about ${value.toFixed(1)} is taken for its weakest marks`
  return `${whose}: ${upTo}.`
}

function aboutGround({ unit }: LightExposure, { doses }: Grounds): string {
  const { holdDoseLu, soundDoseLu, throughDoseLu } = doses
  return `The ground stays in the mesh from about ${amount(holdDoseLu)} ${unit.countsIn}, needs about ${amount(soundDoseLu)} to be sound, and is hard through from about ${amount(throughDoseLu)}.`
}

function aboutScreen({ screen }: LightExposure): readonly string[] {
  if (screen === null)
    return ['No screen is chosen: a white 90-48 fabric, coated as usual, is meant.']
  const { fabric, coating, name } = screen
  const more = 10 ** PRIORS['dyed fabric'].mean
  const dyed =
    fabric.colour === 'dyed'
      ? [
          `${fabric.name} is dyed: it takes about ${more.toFixed(1)} times the light of white cloth and keeps edges sharper.`,
        ]
      : []
  return coating === null ? [...dyed, `${name} is not coated now: a coat as usual is meant.`] : dyed
}

function aboutOwnCoat(
  { screen, unit }: LightExposure,
  { otherCoatLu }: Grounds,
): readonly string[] {
  if (screen === null || otherCoatLu === null) return []
  return [
    `Something was read on this very coat of ${screen.name}: another screen coated alike wants about ${amount(otherCoatLu)} ${unit.countsIn}.`,
  ]
}

function aboutBase({ base }: LightExposure, { usualBase }: LightShop): readonly string[] {
  const difference = base.baseDensity - usualBase.baseDensity
  if (base.id === usualBase.id || Math.abs(difference) < 0.005) return []
  const times = (10 ** Math.abs(difference)).toFixed(1)
  const [what, lets] = difference > 0 ? ['more', 'less'] : ['less', 'more']
  return [
    `${capital(base.name)} lets through ${lets} light than ${usualBase.name}: the dose is ${times} times ${what === 'more' ? 'as large' : 'smaller'}.`,
  ]
}

function aboutPlace({ unit: { glassShare } }: LightExposure): readonly string[] {
  if (glassShare === undefined) return []
  const percent = Math.round(100 * glassShare)
  if (percent === 100) return ['Where the film lies the glass has as much light as in its middle.']
  const [less, more] = percent < 100 ? ['less', 'more'] : ['more', 'less']
  return [
    `Where the film lies the glass has ${less} light than in its middle, ${percent} for 100: the dose on the counter is so much ${more}.`,
  ]
}

function aboutCounter({ unit }: LightExposure): readonly string[] {
  const { name, countsIn, countsPerLu } = unit
  if (countsIn === 'seconds') {
    return [
      `${capital(name)} counts seconds: a cold lamp or an old one gives less in a second, so warm it up the same way each time.`,
    ]
  }
  if (countsPerLu === null || Math.abs(countsPerLu - 1) < 0.005) return []
  return [
    `The counter of ${name} has a scale of its own: it shows ${amount(100 * countsPerLu)} for 100 of the usual light units.`,
  ]
}

function amount(doseLu: number): string {
  return doseLu < 10 ? String(Number(doseLu.toFixed(1))) : String(Math.round(doseLu))
}

function plural(count: number, one: string, many: string): string {
  return count === 1 ? `one ${one}` : `${count} ${many}`
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
