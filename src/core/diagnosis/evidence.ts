import type { SignName } from './signNames.ts'

/** What a shop's records hold of one failed screen; null: nobody knows. */
export type ShopEvidence = Readonly<{
  /** From the coat to the lamp. */
  driedMin: number | null
  /** How long screens take in this cabinet, as timed. */
  cabinetMin: number | null
  humidityShare: number | null
  /** From the coat to the lamp, in days, and for how many it is good. */
  coatedDays: number | null
  goodForDays: number | null
  bucketPastDate: boolean | null
  /** What the counter got against what was planned, as its range. */
  countGot: number | null
  plannedLow: number | null
  plannedHigh: number | null
  plannedCount: number | null
  vacuum: 'low' | 'as always' | null
  /** The lamp's light now against when it was new or first timed. */
  lampShare: number | null
  /** How the last screens under this lamp came out before it, the newest first. */
  lately: readonly ('good' | 'failed')[]
}>

export type ToldSign = Readonly<{ sign: SignName; is: 'yes' | 'no'; because: string }>

/** Less than the room takes by this much is short; so much more is long enough. Judged. */
const SHORT_SHARE = 0.75
const ENOUGH_SHARE = 1.5
/** Where nobody timed the cabinet: an hour without fans. Common practice, no source. */
const USUAL_DRYING_MIN = 60
/** A reliable stencil wants less than half. Common practice, no source. */
const DAMP_SHARE = 0.5
/** After a week the finest dots go, after ten days all hardens a little: trade guides. */
const FRESH_DAYS = 5
const OLD_DAYS = 10
/** Judged. */
const WEAK_LAMP_SHARE = 0.85
const STEADY_LAMP_SHARE = 0.93
/** Under one step of a wedge between too little and too much. */
const LITTLE_LATITUDE_STEPS = 1
const STEP_DENSITY = 0.15

/** Signs that the records tell by themselves, each with its reason as a sentence. */
export function signsOfShop(evidence: ShopEvidence): readonly ToldSign[] {
  return [
    ...ofDrying(evidence),
    ...ofAge(evidence),
    ...ofDose(evidence),
    ...ofVacuum(evidence),
    ...ofLamp(evidence),
  ]
}

function ofDrying({ driedMin, cabinetMin, humidityShare }: ShopEvidence): readonly ToldSign[] {
  const told: ToldSign[] = []
  const needs = cabinetMin ?? USUAL_DRYING_MIN
  if (driedMin !== null) {
    const because = `It lay ${minutes(driedMin)} from coat to lamp; this room takes ${minutes(needs)}.`
    if (driedMin < needs * SHORT_SHARE) told.push({ sign: 'dried short', is: 'yes', because })
    else if (driedMin > needs * ENOUGH_SHARE) told.push({ sign: 'dried short', is: 'no', because })
  }
  if (humidityShare !== null) {
    const is = humidityShare > DAMP_SHARE ? 'yes' : 'no'
    const because = `The room was noted at ${Math.round(humidityShare * 100)} % humidity.`
    told.push({ sign: 'damp air', is, because })
  }
  return told
}

function ofAge({ coatedDays, goodForDays, bucketPastDate }: ShopEvidence): readonly ToldSign[] {
  const told: ToldSign[] = []
  if (coatedDays !== null) {
    const days = Math.floor(coatedDays)
    const because = `It was coated ${days === 0 ? 'the same day' : `${days} ${days === 1 ? 'day' : 'days'} before`}.`
    if (coatedDays > (goodForDays ?? OLD_DAYS))
      told.push({ sign: 'coating old', is: 'yes', because })
    else if (coatedDays < FRESH_DAYS) told.push({ sign: 'coating old', is: 'no', because })
  }
  if (bucketPastDate !== null) {
    const because = bucketPastDate
      ? 'Its bucket was past its date.'
      : 'Its bucket was within its date.'
    told.push({ sign: 'bucket old', is: bucketPastDate ? 'yes' : 'no', because })
  }
  return told
}

function ofDose({
  countGot,
  plannedCount,
  plannedLow,
  plannedHigh,
}: ShopEvidence): readonly ToldSign[] {
  const told: ToldSign[] = []
  if (plannedLow === null || plannedHigh === null) return told
  if (countGot !== null && plannedCount !== null) {
    told.push({
      sign: 'under the dose',
      is: countGot < plannedLow ? 'yes' : 'no',
      because: `It got ${plain(countGot)}; less than ${plain(plannedLow)} is too little.`,
    })
    told.push({
      sign: 'over the dose',
      is: countGot > plannedHigh ? 'yes' : 'no',
      because: `It got ${plain(countGot)}; more than ${plain(plannedHigh)} is too much.`,
    })
  }
  const steps = Math.log10(plannedHigh / plannedLow) / STEP_DENSITY
  const because = `Doses from ${plain(plannedLow)} to ${plain(plannedHigh)} suit this film on this screen.`
  told.push({ sign: 'little latitude', is: steps < LITTLE_LATITUDE_STEPS ? 'yes' : 'no', because })
  return told
}

function ofVacuum({ vacuum }: ShopEvidence): readonly ToldSign[] {
  if (vacuum === null) return []
  const because =
    vacuum === 'low'
      ? 'At the bench somebody said that the vacuum was not right.'
      : 'At the bench the gauge stood where it always does.'
  return [{ sign: 'vacuum low', is: vacuum === 'low' ? 'yes' : 'no', because }]
}

/** So many screens say something of the room. */
const LATELY = 3

function ofLamp({ lampShare, lately }: ShopEvidence): readonly ToldSign[] {
  const told: ToldSign[] = []
  if (lampShare !== null) {
    const because = `The lamp gives ${Math.round(lampShare * 100)} % of what it gave when first timed.`
    if (lampShare < WEAK_LAMP_SHARE) told.push({ sign: 'lamp down', is: 'yes', because })
    else if (lampShare > STEADY_LAMP_SHARE) told.push({ sign: 'lamp down', is: 'no', because })
  }
  const last = lately.slice(0, LATELY)
  if (last.length < LATELY) return told
  const failed = last.filter((each) => each === 'failed').length
  const because = `Of the last ${LATELY} screens under this lamp ${failed === 0 ? 'none' : failed} failed.`
  if (failed >= 2) told.push({ sign: 'every screen lately', is: 'yes', because })
  else if (failed === 0) told.push({ sign: 'every screen lately', is: 'no', because })
  return told
}

function minutes(value: number): string {
  return value < 90 ? `${Math.round(value)} minutes` : `${plain(value / 60)} hours`
}

function plain(value: number): string {
  return String(value < 10 ? Math.round(value * 10) / 10 : Math.round(value))
}
