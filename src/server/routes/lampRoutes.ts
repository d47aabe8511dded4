import {
  bucketAdded,
  type Evenness,
  evenness,
  type Lamp,
  lamp,
  meterReference,
  type NewEvenness,
  type NewTiming,
  newBucket,
  newEvenness,
  newLamp,
  newTiming,
  unitQuestion,
} from '../../api/lamp.ts'
import { PATHS } from '../../api/paths.ts'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { Failure } from '../../core/failure.ts'
import { density, lu, mm } from '../../core/units/quantity.ts'
import { addBatch, emulsions } from '../../store/emulsions.ts'
import { addSurvey, newestSurveys } from '../../store/evenness.ts'
import { addLampTiming } from '../../store/lampTimings.ts'
import { fitLamp, setMeterReading, unitOf } from '../../store/units.ts'
import { evennessAnswer, evennessUntested } from '../../workflow/evennessAnswer.ts'
import { lampAnswer } from '../../workflow/lampAnswer.ts'
import type { LightUnit } from '../../workflow/lightRecords.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route, type Told } from '../http/route.ts'
import { dayText, toldDay } from '../shop/days.ts'
import { unitAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import { unitTimings } from '../shop/unitTimings.ts'
import { meterRoutes, secondsUnit } from './meterRoutes.ts'

/** Doses that people set most, in light units of the models, for times and examples. */
const USUAL_LU = [30, 45, 60, 90]

/** What a lamp gives and where on the glass, and what is new in the room. */
export function lampRoutes(door: ShopDoor): readonly Route[] {
  const unitOfShop = async (unit: string | undefined): Promise<LightUnit> =>
    unitAsked(await door.shop().records(), unit)
  return [
    route({
      method: 'get',
      path: PATHS.lamp,
      summary: 'how a unit’s lamp warms up and ages, from timings of clock and counter',
      query: unitQuestion,
      answer: lamp,
      run: async ({ query }) => lampOf(door.shop(), await unitOfShop(query.unit)),
    }),
    route({
      method: 'post',
      path: PATHS.lampTimings,
      summary: 'takes down what the counter showed at which second, from cold or from hot',
      body: newTiming,
      answer: lamp,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        const unit = await unitOfShop(body.unit)
        await keepTiming(service, { timing: body, unit })
        return lampOf(service, unit)
      },
    }),
    route({
      method: 'post',
      path: PATHS.newLamp,
      summary: 'a new lamp was fitted; it is like the old one, and its hours begin anew',
      body: newLamp,
      answer: lamp,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        const { id } = await unitOfShop(body.unit)
        const { database } = service.store
        const old = (await unitOf(database, id)).lamp
        if (old === null) {
          throw new Failure('conflict', 'This unit has no lamp on record to be replaced.')
        }
        const { kind, distanceMm, sourceRadiusMm } = old
        const like = { unitId: id, kind, distanceMm, sourceRadiusMm }
        const fitted = toldDay(body.on, service.now())
        await fitLamp(database, { ...like, litHours: body.lampHours ?? 0 }, { at: fitted })
        service.changed()
        return lampOf(service, await unitOfShop(id))
      },
    }),
    route({
      method: 'post',
      path: PATHS.meterReference,
      summary:
        'takes down what a hand light meter shows in the light in which a unit’s seconds count',
      body: meterReference,
      answer: lamp,
      status: 201,
      run: async ({ body: { unit: asked, reading } }) => {
        const service = door.shop()
        const unit = await secondsUnit(door, asked)
        await setMeterReading(service.store.database, unit.id, { meterReading: reading })
        service.changed()
        return lampOf(service, unit)
      },
    }),
    ...meterRoutes(door),
    route({
      method: 'post',
      path: PATHS.buckets,
      summary: 'a new bucket of an emulsion was mixed or opened',
      body: newBucket,
      answer: bucketAdded,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        const { database } = service.store
        const all = await emulsions(database)
        const asked = body.emulsion?.trim().toLowerCase()
        const usual = (await service.records()).shop.usualEmulsionId
        const emulsion =
          asked === undefined
            ? (all.find(({ id }) => id === usual) ?? all[0])
            : all.find(({ id, name }) => id === asked || name.toLowerCase() === asked)
        if (emulsion === undefined) {
          const message = 'There is no such emulsion in this shop: choose one that is there.'
          throw new Failure('not found', message, { field: 'emulsion' })
        }
        const at = service.now()
        const bucket = { emulsionId: emulsion.id, name: body.name, mixedAt: toldDay(body.on, at) }
        const { id, name } = await addBatch(database, bucket, { at })
        service.changed()
        return { kind: 'bucket' as const, batch: { id, name, about: emulsion.name, not: null } }
      },
    }),
    route({
      method: 'get',
      path: PATHS.evenness,
      summary: 'how even the light is on a unit’s glass',
      query: unitQuestion,
      answer: evenness,
      run: async ({ query }) => evennessOf(door.shop(), await unitOfShop(query.unit)),
    }),
    route({
      method: 'post',
      path: PATHS.evenness,
      summary: 'takes down wedges that lay at several places of the glass under one dose',
      body: newEvenness,
      answer: evenness,
      status: 201,
      run: async ({ body }) => {
        const service = door.shop()
        const unit = await unitOfShop(body.unit)
        await keepEvenness(service, { told: body, unit })
        return evennessOf(service, unit)
      },
    }),
  ]
}

async function lampOf(service: ShopService, unit: LightUnit): Promise<Told<Lamp>> {
  const { lamp: fitted, unit: kept, isFirstLamp } = await unitOf(service.store.database, unit.id)
  const timings = await unitTimings(service, unit.id)
  const { countsIn, countsPerLu, id, name } = unit
  // the lamp that hung there when the shop was written down: nobody said since when
  const isOfOld =
    fitted === null || (isFirstLamp && fitted.fittedAt.getTime() === fitted.createdAt.getTime())
  const usualCounts = USUAL_LU.map((doseLu) => Math.round(doseLu * (countsPerLu ?? 1)))
  return {
    kind: 'lamp',
    unit: { id, name },
    countsIn,
    lampHours: isOfOld ? null : unit.lampHours,
    fittedOn: isOfOld ? null : dayText(fitted.fittedAt),
    timings: timings.map(({ on, from, pairs }) => ({ on, from, pairs })),
    meterReading: kept.meterReading,
    ...lampAnswer({ countsIn, timings, usualCounts }),
  }
}

async function keepTiming(
  service: ShopService,
  { timing, unit }: Readonly<{ timing: NewTiming; unit: LightUnit }>,
): Promise<void> {
  const { from, on, lampHours = unit.lampHours, pairs } = timing
  const inOrder = pairs.toSorted((a, b) => a.clockSec - b.clockSec)
  inOrder.slice(1).forEach(({ clockSec, count }, index) => {
    const before = inOrder[index]
    if (before === undefined) return
    if (clockSec === before.clockSec) {
      const message = `The second ${clockSec} stands here twice: give one count for each.`
      throw new Failure('wrong input', message, { field: 'pairs' })
    }
    if (unit.countsIn === 'light units' && count < before.count) {
      const message = `A counter does not run backwards: it showed ${before.count} at ${before.clockSec} s and ${count} at ${clockSec} s.`
      throw new Failure('wrong input', message, { field: 'pairs' })
    }
  })
  const { database } = service.store
  const { lamp: fitted } = await unitOf(database, unit.id)
  const at = service.now()
  const taken = { takenAt: toldDay(on, at), started: from, lampHours, pairs }
  await addLampTiming(database, { unitId: unit.id, lampId: fitted?.id ?? null, ...taken }, { at })
  service.changed()
}

async function evennessOf({ store }: ShopService, unit: LightUnit): Promise<Told<Evenness>> {
  const { id, name, countsIn, countsPerLu } = unit
  const of = { kind: 'evenness', unit: { id, name }, countsIn } as const
  const newest = (await newestSurveys(store.database)).find(({ survey }) => survey.unitId === id)
  if (newest === undefined) {
    const { unit: kept } = await unitOf(store.database, id)
    const { glassWidthMm: widthMm, glassHeightMm: heightMm } = kept
    const glass = widthMm === null || heightMm === null ? null : { widthMm, heightMm }
    return { ...of, wedge: null, glass, places: [], grid: null, sentences: evennessUntested() }
  }
  const { survey, wedges } = newest
  const glass = { widthMm: survey.glassWidthMm, heightMm: survey.glassHeightMm }
  const { steps, firstDensity, increment } = survey
  const places = wedges.map(({ xMm, yMm, lastSolidStep, firstClearStep }) => ({
    xMm,
    yMm,
    lastSolidStep,
    ...(firstClearStep === null ? {} : { firstClearStep }),
  }))
  const usualCount = Math.round((USUAL_LU[1] ?? 45) * (countsPerLu ?? 1))
  const wedge = { steps, firstDensity, increment }
  return { ...of, wedge, glass, ...evennessAnswer({ glass, wedge, places, usualCount, countsIn }) }
}

async function keepEvenness(
  service: ShopService,
  { told, unit }: Readonly<{ told: NewEvenness; unit: LightUnit }>,
): Promise<void> {
  const { glass, places, doseLu, on } = told
  const wedge = told.wedge ?? USUAL_WEDGE
  places.forEach(({ xMm, yMm, lastSolidStep, firstClearStep }, index) => {
    const which = `Wedge ${index + 1}`
    if (!(xMm >= 0 && xMm <= glass.widthMm && yMm >= 0 && yMm <= glass.heightMm)) {
      const message = `${which} lies beside the glass, which is ${glass.widthMm} by ${glass.heightMm} mm.`
      throw new Failure('wrong input', message, { field: 'places' })
    }
    if (lastSolidStep > wedge.steps || (firstClearStep ?? 0) > wedge.steps + 1) {
      const message = `${which} has only ${wedge.steps} steps: look again which was the last solid one.`
      throw new Failure('wrong input', message, { field: 'places' })
    }
    if (firstClearStep !== undefined && firstClearStep <= lastSolidStep) {
      const message = `${which}: the first clear step comes after the last solid one, ${lastSolidStep}.`
      throw new Failure('wrong input', message, { field: 'places' })
    }
  })
  // held to what the answer needs before it is kept
  const { countsIn, countsPerLu } = unit
  evennessAnswer({
    glass,
    wedge,
    places: places.map(({ firstClearStep, ...place }) => ({
      ...place,
      ...(firstClearStep === undefined ? {} : { firstClearStep }),
    })),
    countsIn,
  })
  const { database } = service.store
  const { lamp: fitted } = await unitOf(database, unit.id)
  const at = service.now()
  const survey = {
    unitId: unit.id,
    lampId: fitted?.id ?? null,
    takenAt: toldDay(on, at),
    glassWidthMm: mm(glass.widthMm),
    glassHeightMm: mm(glass.heightMm),
    doseLu: lu(doseLu / (countsPerLu ?? 1)),
    firstDensity: density(wedge.firstDensity),
    increment: density(wedge.increment),
    steps: wedge.steps,
  }
  const wedges = places.map(({ xMm, yMm, lastSolidStep, firstClearStep = null }) => ({
    xMm: mm(xMm),
    yMm: mm(yMm),
    lastSolidStep,
    firstClearStep,
  }))
  await addSurvey(database, { survey, wedges }, { at })
  service.changed()
}
