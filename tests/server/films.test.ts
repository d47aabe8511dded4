import { readFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { inflateSync } from 'node:zlib'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { run } from '../../src/api/bench.ts'
import { filmForecast, filmList, film as filmSchema } from '../../src/api/films.ts'
import { lightAnswer } from '../../src/api/light.ts'
import {
  filmForecastPath,
  PATHS,
  runEventsPath,
  ticketActsPath,
  ticketPath,
  tilePath,
} from '../../src/api/paths.ts'
import { refusal } from '../../src/api/shop.ts'
import { ticket } from '../../src/api/tickets.ts'
import { near } from '../../src/core/units/near.testing.ts'
import { deflater } from '../../src/decode/deflater.ts'
import { withFilm } from '../../src/decode/openFilm.ts'
import { sourceOf } from '../../src/formats/bytes.ts'
import { openTileStore } from '../../src/formats/tileStore.ts'
import { CREW_LIMITS } from '../../src/server/jobs/crew.ts'
import { filmPicture } from '../../src/workflow/filmForecast.ts'
import { DEFAULT_SETUP } from '../../src/workflow/setup.ts'
import { badFilms, goodFilm } from './badFilms.ts'
import { type Room, room } from './room.ts'
import { PENCIL, readyForecast, sent, settledFilm, until } from './shopRoom.ts'

let shop: Room
beforeAll(async () => {
  shop = await room()
  await shop.ask(PATHS.ownShop, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: '{"fabric":"90-48","colour":"white"}',
  })
})
afterAll(() => shop.close())

const bring = async (name: string, bytes: Uint8Array, query = '') =>
  settledFilm(shop.ask, (await sent(shop.ask, { name, bytes, query })).id)

describe('a scan', () => {
  let id = ''
  beforeAll(async () => {
    const film = await bring('my pencil.png', await readFile(PENCIL))
    expect([film.status, film.message]).toEqual(['ready', null])
    id = film.id
  })

  test('is there by its name with its true size', async () => {
    const film = filmSchema.parse(await (await shop.ask(`${PATHS.films}/${id}`)).json())
    expect(film).toMatchObject({ name: 'my pencil', demo: false, status: 'ready' })
    near(film.widthMm ?? 0, 210, { within: 0.15, because: 'A4 at 120 dpi: half a pixel' })
    near(film.heightMm ?? 0, 297, { within: 0.15, because: 'A4 at 120 dpi: half a pixel' })
    const list = filmList.parse(await (await shop.ask(PATHS.films)).json())
    expect(list.films.map((each) => each.id)).toContain(id)
  })

  test.each([
    ['a drawing', () => Promise.resolve(PENCIL)],
    ['one mark on a clear sheet', () => cornerFile()],
    ['a film whose finest pixels come later', () => cornerFile(3100)],
  ])('%s has the tiles that the workflow makes of the file, to the byte', async (_, make) => {
    const path = await make()
    const { id: brought } = await bring('tiles.png', await readFile(path))
    const forecast = filmForecast.parse(await readyForecast(shop.ask, brought))
    const parts: Uint8Array[] = []
    const picture = await withFilm(path, {}, ({ film }) =>
      filmPicture(film, DEFAULT_SETUP, {
        sink: { write: async (bytes) => void parts.push(bytes.slice()) },
        deflater: deflater(),
      }),
    )
    expect(forecast.pyramid).toEqual(picture.pyramid)
    const store = await openTileStore(sourceOf(Buffer.concat(parts)))
    let clear = 0
    for (const [level, { across, down }] of picture.pyramid.levels.entries()) {
      for (let at = 0; at < across * down; at += 1) {
        const place = { level, x: at % across, y: Math.floor(at / across) }
        const response = await shop.ask(tilePath(forecast.id, place))
        const expected = await store.tile(place)
        expect(response.status).toBe(expected === null ? 204 : 200)
        expect(response.headers.get('cache-control')).toContain('immutable')
        if (expected === null) clear += 1
        else {
          const bytes = inflateSync(await response.arrayBuffer())
          expect(bytes.equals(inflateSync(expected))).toBe(true)
        }
      }
    }
    expect(clear > 0).toBe(path !== PENCIL)
  })

  test('a tile that is still being made is never taken for clear film', async () => {
    const bytes = await readFile(await cornerFile(3200))
    const { id: brought } = await sent(shop.ask, { name: 'large.png', bytes })
    await until(async () => {
      const response = await shop.ask(filmForecastPath(brought))
      const { id: forecast, pyramid, status } = filmForecast.parse(await response.json())
      if (pyramid === null) return null
      const at = tilePath(forecast, { level: 0, x: 0, y: 0 })
      const tile = await shop.ask(at)
      // the mark lies there; between two questions the finest tiles may have come
      expect([200, pyramid.finest === 0 ? 200 : 404]).toContain(tile.status)
      if (tile.status === 404) expect(tile.headers.get('cache-control')).not.toContain('immutable')
      const shown = tilePath(forecast, { level: pyramid.finest, x: 0, y: 0 })
      expect((await shop.ask(shown)).status).toBe(200)
      return status === 'ready' ? true : null
    }, 'all tiles of a large film')
  })

  test('exposed, washed out and dry, told twice, it moves its layer along the road once', async () => {
    const post = async (path: string, body: unknown): Promise<unknown> => {
      const headers = { 'content-type': 'application/json' }
      return (await shop.ask(path, { method: 'POST', headers, body: JSON.stringify(body) })).json()
    }
    const inks = [{ name: 'black', colour: '#222222' }]
    const opened = ticket.parse(await post(PATHS.tickets, { name: 'Pears', inks }))
    const layer = opened.layers[0]?.id ?? ''
    await post(ticketActsPath(opened.id), { kind: 'film', layer, film: id })
    const begun = run.parse(await post(PATHS.runs, { key: 'moves-its-layer', film: id }))
    const layered = { ink: 'black', ticket: { id: opened.id, code: opened.code, name: 'Pears' } }
    expect(begun.layer).toEqual({ shortName: opened.layers[0]?.shortName, ...layered })
    const told = async (...steps: string[]) => {
      const events = steps.map((step) => {
        const nothing = { cause: null, value: null, second: null }
        const at = new Date().toISOString()
        return { key: `done-once-${step}`, kind: 'done', step, at, ...nothing }
      })
      await post(runEventsPath(begun.id), { sentAt: new Date().toISOString(), events })
      return ticket.parse(await (await shop.ask(ticketPath(opened.id))).json())
    }
    expect((await told('lamp')).layers[0]?.at).toBe('water')
    await told('lamp', 'look', 'wedge', 'dry')
    const moved = await told('lamp', 'look', 'wedge', 'dry')
    expect(moved.layers[0]?.at).toBe('print')
    expect(moved.log.map(({ says }) => says)).toEqual(['water done', 'light done'])
  })

  test('a tile that the browser has is not sent again; one outside is clear', async () => {
    const { id: forecast } = await readyForecast(shop.ask, id)
    const path = tilePath(forecast, { level: 0, x: 0, y: 0 })
    const etag = (await shop.ask(path)).headers.get('etag') ?? ''
    const again = await shop.ask(path, { headers: { 'if-none-match': etag } })
    expect([again.status, (await again.arrayBuffer()).byteLength]).toEqual([304, 0])
    expect((await shop.ask(tilePath(forecast, { level: 0, x: 900, y: 0 }))).status).toBe(204)
    for (const wrong of ['/api/forecasts/nothing/tiles/0/0/0', `${path.slice(0, -1)}x`]) {
      expect([wrong, (await shop.ask(wrong)).status]).toEqual([wrong, 404])
    }
  })

  test('gets its own dose, by its own marks and under another screen’s light too', async () => {
    const response = await shop.ask(`${PATHS.light}?film=${id}`)
    const answer = lightAnswer.parse(await response.json())
    expect(answer.asked.subject).toEqual({ kind: 'film', id, name: 'my pencil' })
    expect(answer.reasons.join(' ')).toContain('mm from the left')
    const forecast = await readyForecast(shop.ask, id)
    expect(forecast.findings[0]?.number).toBe(1)
    const opens = forecast.findings.map(({ opensUpToLu }) => opensUpToLu)
    expect(opens).toEqual(opens.toSorted((a, b) => a - b))
    expect(forecast.along).toEqual(forecast.along.toSorted((a, b) => a - b))
  })

  test('takes a new name and base, and refuses a base that is not there', async () => {
    const patch = (body: object) =>
      shop.ask(`${PATHS.films}/${id}`, {
        method: 'PATCH',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      })
    const changed = filmSchema.parse(
      await (await patch({ name: ' Kettle ', base: 'clear polyester' })).json(),
    )
    expect(changed.name).toBe('Kettle')
    const light = await shop.ask(`${PATHS.light}?film=${id}`)
    expect(lightAnswer.parse(await light.json()).asked.base.name).toBe('clear polyester')
    const wrong = await patch({ base: 'glass' })
    expect([wrong.status, refusal.parse(await wrong.json()).error.field]).toEqual([404, 'base'])
    expect((await patch({ name: '' })).status).toBe(422)
  })

  test('is gone with its forecast once it is removed', async () => {
    const { id: gone } = await bring('twice.png', await readFile(PENCIL))
    const { id: forecast } = await readyForecast(shop.ask, gone)
    const removed = await shop.ask(`${PATHS.films}/${gone}`, { method: 'DELETE' })
    expect(removed.status).toBe(204)
    for (const path of [
      `${PATHS.films}/${gone}`,
      `${PATHS.films}/${gone}/forecast`,
      tilePath(forecast, { level: 0, x: 0, y: 0 }),
    ]) {
      expect([path, (await shop.ask(path)).status]).toEqual([path, 404])
    }
    expect((await shop.ask(`${PATHS.films}/${gone}`, { method: 'DELETE' })).status).toBe(404)
  })

  test('removed while it is being read, nothing of it is left to do', async () => {
    const { id: gone } = await sent(shop.ask, { name: 'soon.png', bytes: await readFile(PENCIL) })
    expect((await shop.ask(`${PATHS.films}/${gone}`, { method: 'DELETE' })).status).toBe(204)
    const after = await bring('after.png', await readFile(PENCIL))
    expect(after.status).toBe('ready')
  })
})

/** 1000 x 1000 pixels at 300 dpi, black in one corner. */
async function cornerFile(side = 1000): Promise<string> {
  const path = join(shop.folder, `corner ${side}.png`)
  const black = { create: { width: 120, height: 90, channels: 3, background: 'black' } } as const
  await sharp({ create: { width: side, height: side, channels: 3, background: 'white' } })
    .composite([{ input: black, left: 20, top: 30 }])
    .png()
    .withMetadata({ density: 300 })
    .toFile(path)
  return path
}

describe('what is no film gets its sentence, and the next film is read', () => {
  test('each by its owner’s name for it, none by ours', async () => {
    for (const { name, bytes, words, query } of badFilms) {
      const film = await bring(name, await bytes(), query)
      expect([name, film.status]).toEqual([name, 'failed'])
      expect(film.message).toContain(words)
      expect(film.message).toContain(`"${name}"`)
      expect(film.message).toMatch(/^[^\n]+\.$/)
      expect(film.message).not.toMatch(/[0-9a-f]{20}|incoming|blobs|--|vips|sharp|undefined/)
      const forecast = await readyForecast(shop.ask, film.id)
      expect([forecast.status, forecast.message]).toEqual(['failed', film.message])
    }
    expect((await bring('whole.png', await goodFilm(), '?resolutionDpi=720')).status).toBe('ready')
    expect(shop.troubles).toEqual([])
  })

  test('what is asked of an upload is checked before its bytes', async () => {
    for (const [query, field] of [
      ['?resolutionDpi=20', 'resolutionDpi'],
      ['?solidDensity=much', 'solidDensity'],
      ['?as=negative', 'as'],
      ['?base=glass', 'base'],
      ['?medium=ink', 'medium'],
    ]) {
      const response = await shop.ask(`${PATHS.films}${query}`, { method: 'POST', body: 'x' })
      expect(refusal.parse(await response.json()).error.field).toBe(field)
    }
  })

  test('more than 512 MB is refused by what it says, before it is sent', async () => {
    const headers = { 'content-length': String(513 * 2 ** 20) }
    const response = await shop.ask(PATHS.films, { method: 'POST', headers, body: 'x' })
    expect(response.status).toBe(413)
    expect(refusal.parse(await response.json()).error.message).toContain('512 MB')
  })

  test('a file that breaks off on its way is no film', async () => {
    const before = filmList.parse(await (await shop.ask(PATHS.films)).json()).films.length
    const headers = { 'content-length': '9000' }
    const response = await shop.ask(PATHS.films, { method: 'POST', headers, body: 'x' })
    expect(refusal.parse(await response.json()).error.message).toContain('broke off')
    const after = filmList.parse(await (await shop.ask(PATHS.films)).json()).films.length
    expect(after).toBe(before)
  })

  test.each([
    ['../../etc/passwd.png', 'passwd'],
    ['C:\\films\\Küche 2.tif', 'Küche 2'],
    ['two\nlines.png', 'two lines'],
    ['', 'film'],
    ['x'.repeat(500), 'x'.repeat(120)],
    ['.png', '.png'],
  ])('a file called %j is the film %j', async (written, name) => {
    const film = await sent(shop.ask, { name: written, bytes: new Uint8Array(0) })
    expect(film.name).toBe(name)
  })
})

describe('a film that would take the whole computer', () => {
  test('is given up at its limit of memory, and at its limit of time, in a sentence', async () => {
    for (const [limits, words] of [
      [{ ...CREW_LIMITS, residentMb: 20 }, 'took more than 20 MB of memory'],
      [{ ...CREW_LIMITS, wholeSec: 0 }, 'took too long'],
    ] as const) {
      const small = await room({ limits })
      await small.ask(PATHS.ownShop, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: '{}',
      })
      const { id } = await sent(small.ask, { name: 'big.png', bytes: await readFile(PENCIL) })
      const film = await settledFilm(small.ask, id)
      expect([film.status, film.message]).toEqual(['failed', expect.stringContaining(words)])
      expect((await small.ask(PATHS.choices)).status).toBe(200)
      await small.close()
    }
  })

  const onLinux = test.skipIf(process.platform !== 'linux') // children are found in /proc
  onLinux('whoever reads it may fall over: the film says so, the shop goes on', async () => {
    const { id } = await sent(shop.ask, { name: 'fall.png', bytes: await readFile(PENCIL) })
    await until(async () => (killReaders() ? true : null), 'a process that reads')
    const film = await settledFilm(shop.ask, id)
    expect([film.status, film.message]).toEqual(['failed', expect.stringContaining('broke off')])
    expect((await bring('next.png', await readFile(PENCIL))).status).toBe('ready')
  })
})

/** Ends the processes that read films for this one, as the system does when memory runs out. */
function killReaders(): boolean {
  const children = readFileSync(`/proc/${process.pid}/task/${process.pid}/children`, 'utf8')
  const readers = children.split(' ').filter((pid) => {
    return pid !== '' && readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes('workProcess')
  })
  for (const pid of readers) process.kill(Number(pid), 'SIGKILL')
  return readers.length > 0
}
