import { expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { mm, perCm, um } from '../../../src/core/units/quantity.ts'
import { baseOf, bases } from '../../../src/store/bases.ts'
import {
  allCoatings,
  changeCoating,
  coatingOn,
  coatings,
  coatScreen,
  reclaimScreen,
} from '../../../src/store/coatings.ts'
import {
  coatOf,
  emulsionOf,
  emulsions,
  openBatches,
  useUpBatch,
} from '../../../src/store/emulsions.ts'
import { newestSurveys } from '../../../src/store/evenness.ts'
import { exposureOf } from '../../../src/store/exposures.ts'
import { addFabric, fabricOf, fabrics } from '../../../src/store/fabrics.ts'
import { changeFilm, filmIsRefused, filmOf, removeFilm } from '../../../src/store/films.ts'
import { frameOf, frames } from '../../../src/store/frames.ts'
import { inkOf, inks } from '../../../src/store/inks.ts'
import { lampTimings } from '../../../src/store/lampTimings.ts'
import { media, mediumOf } from '../../../src/store/media.ts'
import { changePerson, people, personOf } from '../../../src/store/people.ts'
import { readingOf, readings, strikeReading } from '../../../src/store/readings.ts'
import { newestReference } from '../../../src/store/references.ts'
import {
  addScreen,
  changeScreen,
  screenOf,
  screens,
  screenWithTag,
} from '../../../src/store/screens.ts'
import { changeShop, foundShop, shopOrNull, theShop } from '../../../src/store/shop.ts'
import { changeTicket, ticketCodes, ticketOf } from '../../../src/store/tickets.ts'
import { addLampHours, fitLamp, lamps, unitOf, units } from '../../../src/store/units.ts'
import { lastUpkeep, noteUpkeep } from '../../../src/store/upkeep.ts'
import { minute } from '../sampleRoom.ts'
import { fillWithSample } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

const NOBODY = '0'.repeat(26)

/** Every record comes back as it went in, and what is not there is said in a sentence. */
export function recordSuite({ shop }: Bench): void {
  test('every record comes back as it was given', async () => {
    const { database } = shop()
    const sample = await fillWithSample(shop())
    expect(await theShop(database)).toEqual(sample.shop)
    expect(await personOf(database, sample.person.id)).toEqual(sample.person)
    // the survey measured the glass
    const unit = { ...sample.unit, glassWidthMm: 1210, glassHeightMm: 905.5 }
    expect(await unitOf(database, sample.unit.id)).toEqual({
      unit,
      lamp: sample.lamp,
      isFirstLamp: true,
    })
    expect(await fabricOf(database, sample.fabric.id)).toEqual(sample.fabric)
    expect(await frameOf(database, sample.frame.id)).toEqual(sample.frame)
    expect(await baseOf(database, sample.base.id)).toEqual(sample.base)
    expect(await mediumOf(database, sample.medium.id)).toEqual(sample.medium)
    expect(await inkOf(database, sample.ink.id)).toEqual(sample.ink)
    expect(await emulsionOf(database, sample.emulsion.id)).toEqual(sample.emulsion)
    expect(await openBatches(database)).toEqual([sample.batch])
    expect(await screenWithTag(database, '14')).toEqual({ ...sample.screen, state: 'coated' })
    expect(await coatingOn(database, sample.screen.id)).toEqual(sample.coating)
    expect(await ticketOf(database, sample.ticket.ticket.id)).toEqual(sample.ticket)
    expect(await filmOf(database, sample.film.id)).toEqual(sample.film)
    expect(await exposureOf(database, sample.exposure.id)).toEqual({
      exposure: sample.exposure,
      filmIds: [sample.film.id],
    })
    expect(await readings(database)).toEqual([sample.wedge, sample.strip, sample.outcome])
    expect(await lampTimings(database, { unitId: sample.unit.id })).toEqual([sample.timing])
    expect(sample.timing.pairs).toEqual([
      { clockSec: 31.5, count: 11 },
      { clockSec: 95, count: 52.25 },
    ])
    expect(await newestSurveys(database)).toEqual([sample.survey])
    expect(await newestReference(database)).toEqual(sample.reference)
  })

  test('numbers, days, texts and JSON are what they were, to the last digit', async () => {
    const { film, exposure, lamp, fabric, person } = await fillWithSample(shop())
    expect(film).toMatchObject({
      widthMm: 297.125,
      pixelUm: 35.27,
      fileName: 'heron – K.png',
      createdAt: minute(2),
      readAt: minute(3),
      faintPrints: null,
      refusal: null,
      status: 'ready',
      marks: [{ weakest: { xMm: 12.5, yMm: 180.25 } }, 'two "marks"', null],
    })
    expect(exposure).toMatchObject({
      chanceGood: 0.8125,
      why: ['last wedge 12 days ago', 'a new bucket'],
    })
    expect(lamp.removedAt).toBeNull()
    expect(fabric).toMatchObject({ thicknessUm: 72.5, dyed: true })
    expect(person.name).toBe('Demo Ölmez')
  })

  test('a name that nobody has is not found, in one sentence', async () => {
    const { database } = shop()
    const at = { at: minute(1) }
    const asked: readonly (() => Promise<unknown>)[] = [
      () => theShop(database),
      () => personOf(database, NOBODY),
      () => unitOf(database, NOBODY),
      () => fabricOf(database, NOBODY),
      () => screenOf(database, NOBODY),
      () => screenWithTag(database, "'; drop table screen; --"),
      () => ticketOf(database, NOBODY),
      () => filmOf(database, NOBODY),
      () => exposureOf(database, NOBODY),
      () => readingOf(database, NOBODY),
      () => changeScreen(database, NOBODY, { state: 'torn' }),
      () => changePerson(database, NOBODY, { leftAt: minute(2) }),
      () => changeTicket(database, NOBODY, { name: 'x' }),
      () => changeCoating(database, NOBODY, { dryAt: minute(2) }),
      () => changeFilm(database, NOBODY, { faintPrints: true }),
      () => filmIsRefused(database, NOBODY, { refusal: 'It is no film.' }),
      () => removeFilm(database, NOBODY),
      () => useUpBatch(database, NOBODY, at),
      () => addLampHours(database, NOBODY, { hours: 2 }),
      () => strikeReading(database, NOBODY, { reason: 'misread', byId: null }, at),
      () => changeShop(database, { name: 'x' }),
      () => coatScreen(database, { screenId: NOBODY, recipe: 'x', coatedAt: minute(1) }, at),
    ]
    for (const ask of asked) {
      const error = await ask().catch((cause: unknown) => cause)
      expect([isFailure(error, 'not found'), String(error)]).toEqual([
        true,
        expect.stringMatching(/^Failure: There is no .*[.]$/),
      ])
    }
  })

  test('lists come in their order, without what is over', async () => {
    const { database } = shop()
    const { fabric, person, screen, unit } = await fillWithSample(shop())
    const fine = await addFabric(
      database,
      { name: '120-34', threadsPerCm: perCm(120), threadUm: um(34), colour: 'white', dyed: false },
      { at: minute(20) },
    )
    expect((await fabrics(database)).map(({ id }) => id)).toEqual([fabric.id, fine.id])
    for (const list of [frames, emulsions, bases, media, inks, coatings, units, ticketCodes]) {
      expect(await list(database)).toHaveLength(1)
    }
    await changePerson(database, person.id, { leftAt: minute(30) })
    expect(await people(database)).toEqual([])
    await changeScreen(database, screen.id, { retiredAt: minute(30) })
    expect(await screens(database)).toEqual([])
    expect((await unitOf(database, unit.id)).unit.id).toBe(unit.id)
  })

  test('a new lamp takes the place of the old one, whose hours stay', async () => {
    const { database } = shop()
    const { unit, lamp } = await fillWithSample(shop())
    expect((await addLampHours(database, lamp.id, { hours: 1.5 })).litHours).toBe(144.75)
    const bank = await fitLamp(
      database,
      { unitId: unit.id, kind: 'bank', distanceMm: mm(80), litHours: 0 },
      { at: minute(40) },
    )
    expect((await unitOf(database, unit.id)).lamp).toEqual(bank)
    expect((await units(database)).map((one) => one.lamp?.id)).toEqual([bank.id])
    expect((await lamps(database)).map(({ id, removedAt }) => [id, removedAt])).toEqual([
      [lamp.id, minute(40)],
      [bank.id, null],
    ])
    await expect(addLampHours(database, bank.id, { hours: Number.NaN })).rejects.toThrow(RangeError)
  })

  test('a screen is coated once and reclaimed once', async () => {
    const { database } = shop()
    const { screen, batch } = await fillWithSample(shop())
    const again = {
      screenId: screen.id,
      batchId: batch.id,
      recipe: '2 and 1',
      coatedAt: minute(50),
    }
    const refused = await coatScreen(database, again, { at: minute(50) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(refused, 'conflict')).toBe(true)
    expect(String(refused)).toContain('reclaim it first')
    const gone = await reclaimScreen(database, screen.id, { at: minute(51) })
    expect(gone.removedAt).toEqual(minute(51))
    expect(await screenOf(database, screen.id)).toMatchObject({ state: 'clean', ownerId: null })
    await expect(reclaimScreen(database, screen.id, { at: minute(52) })).rejects.toThrow(
      'no coating',
    )
    await coatScreen(database, again, { at: minute(53) })
    expect((await screenOf(database, screen.id)).state).toBe('coated')
    const ever = (await allCoatings(database)).map(({ removedAt }) => removedAt)
    expect(ever).toEqual([minute(51), null])
  })

  test('there is one shop, and what is usual in it is its own', async () => {
    const { database } = shop()
    expect(await shopOrNull(database)).toBeNull()
    const own = { name: 'Print room', kind: 'own', units: 'inch' } as const
    await foundShop(database, own, { at: minute(1) })
    const second = await foundShop(database, own, { at: minute(2) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(second, 'conflict')).toBe(true)
    await expect(changeShop(database, { usualBaseId: NOBODY })).rejects.toThrow(
      'no such usual base',
    )
    expect(
      await changeShop(database, { name: 'The print room', usualRecipe: '1 and 1' }),
    ).toMatchObject({
      name: 'The print room',
      units: 'inch',
      usualRecipe: '1 and 1',
      usualBaseId: null,
    })
  })

  test('screens keep what was not changed; an empty change is none', async () => {
    const { database } = shop()
    const { screen, frame, fabric } = await fillWithSample(shop())
    const changed = await changeScreen(database, screen.id, {
      rackSlot: 'A 1',
      tensionNewtonPerCm: 19.5,
    })
    expect(changed).toMatchObject({
      tag: '14',
      rackSlot: 'A 1',
      tensionNewtonPerCm: 19.5,
      state: 'coated',
    })
    expect(await changeScreen(database, screen.id, {})).toEqual(changed)
    const twin = { tag: '14', frameId: frame.id, fabricId: fabric.id, state: 'clean' } as const
    const refused = await addScreen(database, twin, { at: minute(9) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(refused, 'conflict') && [refused.field, refused.message]).toEqual([
      'tag',
      'Another screen carries this tag: give this one a number of its own.',
    ])
    await changeScreen(database, screen.id, { retiredAt: minute(10) })
    const heir = await addScreen(database, twin, { at: minute(11) })
    expect(await screenWithTag(database, '14')).toEqual(heir)
  })

  test('the emulsion of a shop becomes the coat that the formulas take', async () => {
    const { emulsion } = await fillWithSample(shop())
    expect(coatOf(emulsion, { thicknessUm: um(81), anchorDepthUm: um(19) })).toEqual({
      model: 'absorbing',
      gelDoseLu: 6.3,
      penetrationDepthUm: 37.1,
      thicknessUm: 81,
      anchorDepthUm: 19,
    })
    const broken = { ...emulsion, gelDoseLu: null }
    expect(() => coatOf(broken, { thicknessUm: um(81), anchorDepthUm: um(19) })).toThrow(RangeError)
  })

  test('what was done for the data is noted, newest last', async () => {
    const { database } = shop()
    expect(await lastUpkeep(database)).toEqual({ vacuum: null, check: null, backup: null })
    await noteUpkeep(database, 'backup', { at: minute(1) })
    await noteUpkeep(database, 'backup', { at: minute(2) })
    expect((await lastUpkeep(database)).backup).toEqual(minute(2))
  })
}
