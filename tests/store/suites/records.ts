import { expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { lu, mm, perCm, um } from '../../../src/core/units/quantity.ts'
import { bases } from '../../../src/store/bases.ts'
import { changeCoating, coatingOn, coatings, coatScreen, reclaimScreen } from '../../../src/store/coatings.ts'
import { coatOf, emulsionOf, emulsions, openBatches, useUpBatch } from '../../../src/store/emulsions.ts'
import { exposureOf, exposures } from '../../../src/store/exposures.ts'
import { addFabric, fabricOf, fabrics } from '../../../src/store/fabrics.ts'
import { addFilm, changeFilm, filmIsRefused, filmOf, films, filmsOfLayer, removeFilm } from '../../../src/store/films.ts'
import { forecastOrNull, forgetForecastsOf, forgetOldForecasts, keepForecast } from '../../../src/store/forecasts.ts'
import { frames } from '../../../src/store/frames.ts'
import { inks } from '../../../src/store/inks.ts'
import { media } from '../../../src/store/media.ts'
import { changePerson, people, personOf } from '../../../src/store/people.ts'
import { addReading, readingOf, readings, strikeReading } from '../../../src/store/readings.ts'
import { addScreen, changeScreen, screenOf, screens, screenWithTag } from '../../../src/store/screens.ts'
import { changeShop, foundShop, shopOrNull, theShop } from '../../../src/store/shop.ts'
import { addLayer, changeTicket, openTickets, ticketOf } from '../../../src/store/tickets.ts'
import { addLampHours, fitLamp, unitOf, units } from '../../../src/store/units.ts'
import { lastUpkeep, noteUpkeep } from '../../../src/store/upkeep.ts'
import { fillWithSample, minute, sha256 } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

const NOBODY = '0'.repeat(26)

/** Every record comes back as it went in, and what is not there is said in a sentence. */
export function recordSuite({ shop }: Bench): void {
  test('every record comes back as it was given', async () => {
    const { database } = shop()
    const sample = await fillWithSample(shop())
    expect(await theShop(database)).toEqual(sample.shop)
    expect(await personOf(database, sample.person.id)).toEqual(sample.person)
    expect(await unitOf(database, sample.unit.id)).toEqual({ unit: sample.unit, lamp: sample.lamp })
    expect(await fabricOf(database, sample.fabric.id)).toEqual(sample.fabric)
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
    expect(exposure).toMatchObject({ chanceGood: 0.8125, why: ['last wedge 12 days ago', 'a new bucket'] })
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
    for (const list of [frames, emulsions, bases, media, inks, coatings, units, openTickets]) {
      expect(await list(database)).toHaveLength(1)
    }
    await changePerson(database, person.id, { leftAt: minute(30) })
    expect(await people(database)).toEqual([])
    await changeScreen(database, screen.id, { retiredAt: minute(30) })
    expect(await screens(database)).toEqual([])
    expect((await unitOf(database, unit.id)).unit).toEqual(unit)
  })

  test('long lists come page by page, newest first', async () => {
    const { database } = shop()
    const { original } = await fillWithSample(shop())
    const ids: string[] = []
    for (let count = 0; count < 7; count++) {
      const film = { kind: 'made', name: `film ${count}`, originalBlob: original.sha256 } as const
      ids.unshift((await addFilm(database, film, { at: minute(100 + count) })).id)
    }
    const first = await films(database, { limit: 3 })
    expect(first.map(({ id }) => id)).toEqual(ids.slice(0, 3))
    const second = await films(database, { limit: 3, before: ids[2] ?? '' })
    expect(second.map(({ id }) => id)).toEqual(ids.slice(3, 6))
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
    await expect(addLampHours(database, bank.id, { hours: Number.NaN })).rejects.toThrow(RangeError)
  })

  test('a screen is coated once and reclaimed once', async () => {
    const { database } = shop()
    const { screen, batch } = await fillWithSample(shop())
    const again = { screenId: screen.id, batchId: batch.id, recipe: '2 and 1', coatedAt: minute(50) }
    const refused = await coatScreen(database, again, { at: minute(50) }).catch((cause: unknown) => cause)
    expect(isFailure(refused, 'conflict')).toBe(true)
    expect(String(refused)).toContain('reclaim it first')
    const gone = await reclaimScreen(database, screen.id, { at: minute(51) })
    expect(gone.removedAt).toEqual(minute(51))
    expect(await screenOf(database, screen.id)).toMatchObject({ state: 'clean', ownerId: null })
    await expect(reclaimScreen(database, screen.id, { at: minute(52) })).rejects.toThrow('no coating')
    await coatScreen(database, again, { at: minute(53) })
    expect((await screenOf(database, screen.id)).state).toBe('coated')
  })

  test('a forecast is a cache: kept anew, found by its key, forgotten without harm', async () => {
    const { database } = shop()
    const { film, forecast } = await fillWithSample(shop())
    const { filmId, setupHash, version } = forecast
    const key = { filmId, setupHash, version }
    const used = { ...forecast, usedAt: minute(60) }
    expect(await forecastOrNull(database, key, { at: minute(60) })).toEqual(used)
    const other = { ...key, version: 3 }
    expect(await forecastOrNull(database, other, { at: minute(61) })).toBeNull()
    const fresh = { ...key, setup: {}, answer: { lowLu: 32 }, leakBlob: null }
    await keepForecast(database, fresh, { at: minute(62) })
    const kept = await forecastOrNull(database, key, { at: minute(63) })
    expect(kept).toMatchObject({ answer: { lowLu: 32 }, leakBlob: null, createdAt: minute(62) })
    const old = { unusedSince: minute(63), version: 2 }
    expect(await forgetOldForecasts(database, old)).toBe(0)
    expect(await forgetOldForecasts(database, { ...old, version: 3 })).toBe(1)
    await keepForecast(database, fresh, { at: minute(64) })
    await forgetForecastsOf(database, film.id)
    expect(await forecastOrNull(database, key, { at: minute(65) })).toBeNull()
    await expect(
      keepForecast(database, { ...fresh, filmId: NOBODY }, { at: minute(66) }),
    ).rejects.toThrow('There is no such film')
  })

  test('a film that was exposed stays; a loose one goes with its forecasts', async () => {
    const { database } = shop()
    const { film, original, ticket } = await fillWithSample(shop())
    const kept = await removeFilm(database, film.id).catch((cause: unknown) => cause)
    expect(isFailure(kept, 'conflict')).toBe(true)
    expect(String(kept)).toMatch(/It cannot be removed: (an exposure film|a reading) still belongs/)
    const loose = await addFilm(
      database,
      { kind: 'read', name: 'loose', originalBlob: original.sha256 },
      { at: minute(70) },
    )
    const layerId = ticket.layers[0]?.id ?? ''
    expect(await filmsOfLayer(database, layerId)).toHaveLength(1)
    expect((await changeFilm(database, loose.id, { layerId, faintPrints: false })).layerId).toBe(layerId)
    expect(await filmsOfLayer(database, layerId)).toHaveLength(2)
    const refusal = 'It is a photo of a cat; scan the film.'
    expect(await filmIsRefused(database, loose.id, { refusal })).toMatchObject({ status: 'refused', refusal })
    const forecast = { filmId: loose.id, setupHash: sha256('x'), version: 1, setup: {}, answer: {}, leakBlob: null }
    await keepForecast(database, forecast, { at: minute(71) })
    await removeFilm(database, loose.id)
    await expect(filmOf(database, loose.id)).rejects.toThrow('There is no such film')
  })

  test('a struck-out reading is kept with its reason, and not replayed', async () => {
    const { database } = shop()
    const { strip, wedge, outcome, person } = await fillWithSample(shop())
    const by = { reason: 'read at the wrong end', byId: person.id }
    const struck = await strikeReading(database, strip.reading.id, by, { at: minute(80) })
    expect(struck).toMatchObject({ struckAt: minute(80), struckReason: by.reason, struckById: person.id })
    expect(await readings(database)).toEqual([wedge, outcome])
    const all = await readings(database, { withStruck: true })
    expect(all.map(({ bands }) => bands.length)).toEqual([0, 3, 1])
    const twice = await strikeReading(database, strip.reading.id, by, { at: minute(81) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(twice, 'conflict')).toBe(true)
  })

  test('a reading has the bands of its kind, and no nonsense', async () => {
    const { database } = shop()
    const { unit, medium, wedge } = await fillWithSample(shop())
    const at = { at: minute(90) }
    const strip = { kind: 'strip', takenAt: minute(90), unitId: unit.id, mediumId: medium.id } as const
    const band = { doseLu: lu(30), grade: 'good' } as const
    await expect(addReading(database, { reading: strip, bands: [band] }, at)).rejects.toThrow(RangeError)
    const outcome = { ...strip, kind: 'outcome' } as const
    await expect(addReading(database, { reading: outcome, bands: [] }, at)).rejects.toThrow(RangeError)
    const { id: _, createdAt: __, ...of } = wedge.reading
    await expect(addReading(database, { reading: of, bands: [band] }, at)).rejects.toThrow(RangeError)
    const overrun = { ...of, lastSolidStep: 22 }
    await expect(addReading(database, { reading: overrun, bands: [] }, at)).rejects.toThrow(RangeError)
    const backwards = { ...of, firstClearStep: 6 }
    await expect(addReading(database, { reading: backwards, bands: [] }, at)).rejects.toThrow(RangeError)
    const noneClear = { ...of, lastSolidStep: 21, firstClearStep: 22 }
    await addReading(database, { reading: noneClear, bands: [] }, at)
    const wedgeOfStrip = { ...strip, doseLu: lu(30) }
    await expect(
      addReading(database, { reading: wedgeOfStrip, bands: [band, band] }, at),
    ).rejects.toThrow(RangeError)
    expect(await readings(database)).toHaveLength(4)
  })

  test('there is one shop, and what is usual in it is its own', async () => {
    const { database } = shop()
    expect(await shopOrNull(database)).toBeNull()
    const own = { name: 'Print room', kind: 'own', units: 'inch' } as const
    await foundShop(database, own, { at: minute(1) })
    const second = await foundShop(database, own, { at: minute(2) }).catch((cause: unknown) => cause)
    expect(isFailure(second, 'conflict')).toBe(true)
    await expect(changeShop(database, { usualBaseId: NOBODY })).rejects.toThrow('no such usual base')
    expect(await changeShop(database, { name: 'The print room', usualRecipe: '1 and 1' })).toMatchObject({
      name: 'The print room',
      units: 'inch',
      usualRecipe: '1 and 1',
      usualBaseId: null,
    })
  })

  test('a layer is added in a free place, under a name of its own', async () => {
    const { database } = shop()
    const { ticket } = await fillWithSample(shop())
    const layer = { ticketId: ticket.ticket.id, place: 2, shortName: 'H7-Y' }
    await addLayer(database, layer, { at: minute(3) })
    for (const other of [{ ...layer, place: 3 }, { ...layer, shortName: 'H7-M' }]) {
      const refused = await addLayer(database, other, { at: minute(4) }).catch((cause: unknown) => cause)
      expect(isFailure(refused, 'conflict') && refused.field).toMatch(/shortName|place/)
    }
    await changeTicket(database, ticket.ticket.id, { closedAt: minute(5) })
    expect(await openTickets(database)).toEqual([])
  })

  test('screens keep what was not changed; an empty change is none', async () => {
    const { database } = shop()
    const { screen, frame, fabric } = await fillWithSample(shop())
    const changed = await changeScreen(database, screen.id, { rackSlot: 'A 1', tensionNewtonPerCm: 19.5 })
    expect(changed).toMatchObject({ tag: '14', rackSlot: 'A 1', tensionNewtonPerCm: 19.5, state: 'coated' })
    expect(await changeScreen(database, screen.id, {})).toEqual(changed)
    const twin = { tag: '14', frameId: frame.id, fabricId: fabric.id, state: 'clean' } as const
    const refused = await addScreen(database, twin, { at: minute(9) }).catch((cause: unknown) => cause)
    expect(isFailure(refused, 'conflict') && [refused.field, refused.message]).toEqual([
      'tag',
      'Another screen carries this tag: give this one a number of its own.',
    ])
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

  test('exposures are listed by screen', async () => {
    const { database } = shop()
    const { exposure, screen } = await fillWithSample(shop())
    expect(await exposures(database, { limit: 5, screenId: screen.id })).toEqual([exposure])
    expect(await exposures(database, { limit: 5, screenId: NOBODY })).toEqual([])
  })
}
