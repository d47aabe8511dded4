import { expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { lu } from '../../../src/core/units/quantity.ts'
import { eveningKeys, eveningOf, keepEvenings } from '../../../src/store/evenings.ts'
import { addSurvey, newestSurveys } from '../../../src/store/evenness.ts'
import { exposures } from '../../../src/store/exposures.ts'
import {
  addFilm,
  changeFilm,
  filmIsRefused,
  filmOf,
  films,
  filmsOfLayer,
  removeFilm,
} from '../../../src/store/films.ts'
import {
  forecastOrNull,
  forgetForecastsOf,
  forgetOldForecasts,
  keepForecast,
} from '../../../src/store/forecasts.ts'
import { addLampTiming } from '../../../src/store/lampTimings.ts'
import {
  addReading,
  addReadings,
  noteLinesTaken,
  readings,
  readingsStamp,
  strikeReading,
  struckReadings,
} from '../../../src/store/readings.ts'
import { minute } from '../sampleRoom.ts'
import { fillWithSample, sha256 } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

const NOBODY = '0'.repeat(26)

/** Films, tickets, exposures and readings, and how they hang together. */
export function workSuite({ shop }: Bench): void {
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
    expect((await changeFilm(database, loose.id, { layerId, faintPrints: false })).layerId).toBe(
      layerId,
    )
    expect(await filmsOfLayer(database, layerId)).toHaveLength(2)
    const refusal = 'It is a photo of a cat; scan the film.'
    expect(await filmIsRefused(database, loose.id, { refusal })).toMatchObject({
      status: 'refused',
      refusal,
    })
    const forecast = {
      filmId: loose.id,
      setupHash: sha256('x'),
      version: 1,
      setup: {},
      answer: {},
      leakBlob: null,
    }
    await keepForecast(database, forecast, { at: minute(71) })
    await removeFilm(database, loose.id)
    await expect(filmOf(database, loose.id)).rejects.toThrow('There is no such film')
  })

  test('a struck-out reading is kept with its reason, and not replayed', async () => {
    const { database } = shop()
    const { strip, wedge, outcome, person } = await fillWithSample(shop())
    const by = { reason: 'read at the wrong end', byId: person.id }
    const struck = await strikeReading(database, strip.reading.id, by, { at: minute(80) })
    expect(struck).toMatchObject({
      struckAt: minute(80),
      struckReason: by.reason,
      struckById: person.id,
    })
    expect(await readings(database)).toEqual([wedge, outcome])
    const all = await readings(database, { withStruck: true })
    expect(all.map(({ bands }) => bands.length)).toEqual([0, 3, 1])
    const twice = await strikeReading(database, strip.reading.id, by, { at: minute(81) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(twice, 'conflict')).toBe(true)
  })

  test('many readings go in at once, in their order, all or none', async () => {
    const { database } = shop()
    const { unit, medium, outcome } = await fillWithSample(shop())
    const before = await readingsStamp(database)
    expect(before).toMatchObject({ count: 3, struck: 0 })
    const many = Array.from({ length: 2300 }, (_, at) => ({
      reading: {
        kind: 'strip',
        takenAt: minute(100 + at),
        unitId: unit.id,
        mediumId: medium.id,
        ...(at % 2 === 0 ? { noteLine: `line ${at % 10}` } : { note: 'by hand' }),
      } as const,
      bands: [
        { doseLu: lu(20 + at), grade: 'soft' } as const,
        { doseLu: lu(40 + at), ground: 'sound', marks: 'filling' } as const,
      ],
    }))
    const taken = await addReadings(database, many, { at: minute(95) })
    expect(taken.map(({ bands }) => bands.map(({ doseLu }) => doseLu))).toEqual(
      many.map(({ bands }) => bands.map(({ doseLu }) => doseLu)),
    )
    const later = await readings(database, { afterId: before.newestId ?? '' })
    expect(later.map(({ reading }) => reading.id)).toEqual(taken.map(({ reading }) => reading.id))
    expect(later[7]).toEqual(taken[7])
    const lines = await noteLinesTaken(database)
    expect([lines.get('line 4'), lines.get(outcome.reading.noteLine ?? '')]).toEqual([230, 1])

    const [first, ...rest] = many
    const wrong = first && { ...first, reading: { ...first.reading, mediumId: NOBODY } }
    await expect(
      addReadings(database, [...rest.slice(0, 5), ...(wrong ? [wrong] : [])], { at: minute(96) }),
    ).rejects.toThrow('There is no such medium')
    await strikeReading(
      database,
      taken[3]?.reading.id ?? '',
      { reason: 'twice', byId: null },
      { at: minute(97) },
    )
    expect((await struckReadings(database)).map(({ id }) => id)).toEqual([taken[3]?.reading.id])
    expect(await readingsStamp(database)).toMatchObject({ count: 2303, struck: 1 })
  })

  test('evenings are a cache: those that are wanted stay or are put anew, others go', async () => {
    const { database } = shop()
    const key = (sign: string): string => sign.repeat(43)
    const evening = (sign: string, day: number, belief: Readonly<Record<string, string>> = {}) => {
      return { key: key(sign), day, belief }
    }
    const two = [evening('a', 5), evening('b', 3)]
    await keepEvenings(database, { added: two, staying: [] }, { at: minute(1) })
    expect(await eveningKeys(database)).toEqual([key('b'), key('a')])
    const more = [evening('a', 5, { mean: 'AAA=' }), evening('c', 9)]
    await keepEvenings(database, { added: more, staying: [] }, { at: minute(2) })
    expect(await eveningKeys(database)).toEqual([key('a'), key('c')])
    expect(await eveningOf(database, key('a'))).toEqual({ ...more[0], createdAt: minute(2) })
    expect(await eveningOf(database, key('b'))).toBeNull()
    await keepEvenings(database, { added: [], staying: [key('c')] }, { at: minute(3) })
    expect(await eveningKeys(database)).toEqual([key('c')])
    await keepEvenings(database, { added: [], staying: [] }, { at: minute(4) })
    expect(await eveningKeys(database)).toEqual([])
  })

  test('a survey has three wedges at least, a timing two pairs', async () => {
    const { database } = shop()
    const { survey, timing } = await fillWithSample(shop())
    const { id: _, createdAt: __, ...of } = survey.survey
    const wedges = survey.wedges.slice(1)
    await expect(addSurvey(database, { survey: of, wedges }, { at: minute(20) })).rejects.toThrow(
      RangeError,
    )
    const newer = { ...of, takenAt: minute(30) }
    const all = { survey: newer, wedges: survey.wedges.toReversed() }
    const again = await addSurvey(database, all, { at: minute(31) })
    expect(await newestSurveys(database)).toEqual([again])
    const { id: ___, createdAt: ____, ...run } = timing
    await expect(
      addLampTiming(database, { ...run, pairs: run.pairs.slice(1) }, { at: minute(32) }),
    ).rejects.toThrow(RangeError)
  })

  test('a reading has the bands of its kind, and no nonsense', async () => {
    const { database } = shop()
    const { unit, medium, wedge } = await fillWithSample(shop())
    const at = { at: minute(90) }
    const strip = {
      kind: 'strip',
      takenAt: minute(90),
      unitId: unit.id,
      mediumId: medium.id,
    } as const
    const band = { doseLu: lu(30), grade: 'good' } as const
    await expect(addReading(database, { reading: strip, bands: [band] }, at)).rejects.toThrow(
      RangeError,
    )
    const outcome = { ...strip, kind: 'outcome' } as const
    await expect(addReading(database, { reading: outcome, bands: [] }, at)).rejects.toThrow(
      RangeError,
    )
    const { id: _, createdAt: __, ...of } = wedge.reading
    await expect(addReading(database, { reading: of, bands: [band] }, at)).rejects.toThrow(
      RangeError,
    )
    const overrun = { ...of, lastSolidStep: 22 }
    await expect(addReading(database, { reading: overrun, bands: [] }, at)).rejects.toThrow(
      RangeError,
    )
    const backwards = { ...of, firstClearStep: 6 }
    await expect(addReading(database, { reading: backwards, bands: [] }, at)).rejects.toThrow(
      RangeError,
    )
    const noneClear = { ...of, lastSolidStep: 21, firstClearStep: 22 }
    await addReading(database, { reading: noneClear, bands: [] }, at)
    const wedgeOfStrip = { ...strip, doseLu: lu(30) }
    await expect(
      addReading(database, { reading: wedgeOfStrip, bands: [band, band] }, at),
    ).rejects.toThrow(RangeError)
    expect(await readings(database)).toHaveLength(4)
  })

  test('exposures are listed by screen', async () => {
    const { database } = shop()
    const { exposure, screen } = await fillWithSample(shop())
    expect(await exposures(database, { limit: 5, screenId: screen.id })).toEqual([exposure])
    expect(await exposures(database, { limit: 5, screenId: NOBODY })).toEqual([])
  })
}
