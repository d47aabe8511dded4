import type { ReadingLine } from '../../api/tests.ts'
import { Failure } from '../../core/failure.ts'
import type { Reading } from '../../store/readings.ts'
import { readingDoubts, readingSays } from '../../workflow/readingWords.ts'
import type { Told } from '../http/route.ts'
import { dayOf, dayText } from '../shop/days.ts'
import { type Taught } from '../shop/evidence.ts'
import { fabricName } from '../shop/lightThings.ts'
import { bucketName } from '../shop/setUpAsked.ts'
import type { ShopRecords } from '../shop/shopRecords.ts'

type Line = Told<ReadingLine>

/** Hardly one screen in thirty comes out so. */
const RARE = 1 / 30

/** Readings as lines of the shop's memory. */
export function readingLines(records: ShopRecords, taught: readonly Taught[]): readonly Line[] {
  const chances = chancesOf(records)
  return taught.map((each) => readingLine(records, each, chances))
}

/** @throws Failure 'not found' */
export function lineOf(records: ShopRecords, id: string): Line {
  const found = records.taught.findLast(({ whole }) => whole.reading.id === id)
  const [line] = found === undefined ? [] : readingLines(records, [found])
  if (line !== undefined) return line
  throw new Failure('not found', 'There is no such reading in this shop.')
}

type ChanceOf = (taught: Taught) => number | null

function readingLine(records: ShopRecords, taught: Taught, chanceOf: ChanceOf): Line {
  const { whole, evidence } = taught
  const { reading } = whole
  const unit = records.units.find(({ id }) => id === reading.unitId)
  const counter = { countsIn: unit?.countsIn ?? 'light units', counts: unit?.countsPerLu ?? 1 }
  const medium = records.media.find(({ id }) => id === reading.mediumId)
  const struck =
    reading.struckAt === null
      ? null
      : { on: dayText(reading.struckAt), reason: reading.struckReason ?? '' }
  const chance = struck === null ? chanceOf(taught) : null
  return {
    id: reading.id,
    on: dayText(reading.takenAt),
    kind: reading.kind,
    says:
      evidence === null
        ? 'A film of which nothing is known'
        : readingSays(evidence, { marks: medium?.name ?? 'a film', ...counter }),
    about: aboutOf(records, reading),
    medium: medium === undefined ? null : { id: medium.id, name: medium.name },
    struck,
    doubts: [
      ...(evidence === null ? [] : readingDoubts(evidence, counter)),
      ...(chance !== null && chance < RARE ? [UNEXPECTED] : []),
    ],
  }
}

const UNEXPECTED =
  'By what was believed that day, hardly one screen in thirty comes out like this: check the dose and the medium.'

/** "screen 14, 90-48 yellow, the open bucket, the big lamp" */
function aboutOf(records: ShopRecords, reading: Reading): string {
  const { screens, fabrics, batches, units, bases, usualBase } = records
  const screen = screens.find(({ record }) => record.id === reading.screenId)?.light.name
  const fabric = fabrics.find(({ id }) => id === reading.fabricId)
  const batch = batches.find(({ id }) => id === reading.batchId)
  const base = bases.find(({ id }) => id === reading.baseId && id !== usualBase.id)?.name
  const unit = units.find(({ id }) => id === reading.unitId)?.name
  const parts = [
    screen,
    fabric === undefined ? undefined : fabricName(fabric),
    base,
    batch === undefined ? undefined : bucketName(records, batch),
    unit,
  ]
  return parts.filter((part) => part !== undefined).join(', ')
}

/** How likely each finished screen was before it was made; null for anything else. */
function chancesOf({ believed }: ShopRecords): ChanceOf {
  return ({ whole, evidence }) => {
    if (evidence?.kind !== 'outcome') return null
    const text = JSON.stringify(evidence)
    const day = dayOf(whole.reading.takenAt)
    // what is asked for is mostly of late
    const note = believed.days.findLast((each) => each.day === day)
    const taken = note?.readings.find((each) => JSON.stringify(each.evidence) === text)
    return taken?.chance ?? null
  }
}
