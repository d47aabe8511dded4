import { readdir, readFile, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { blobFile, blobOf, readBlob, storeBlob } from '../../../src/store/blobs/blobStore.ts'
import { clearBlobs } from '../../../src/store/blobs/clearBlobs.ts'
import { checkShop } from '../../../src/store/check.ts'
import { addFilm, removeFilm } from '../../../src/store/films.ts'
import { minute } from '../sampleRoom.ts'
import { bytesOf, fillWithSample, sha256 } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

const png = { mediaType: 'image/png', limitBytes: 100 }
const DAY = 24 * 60

/** Files by their content: whole or not there, kept once, cleared when nobody names them. */
export function blobSuite({ shop }: Bench): void {
  const files = async (): Promise<readonly string[]> => {
    const { blobs, incoming } = shop().folder
    const names = await readdir(blobs, { recursive: true, withFileTypes: true })
    expect(await readdir(incoming)).toEqual([])
    return names.filter((entry) => entry.isFile()).map(({ name }) => name)
  }

  // FIPS 180: the digest of "abc"
  test('oracle sha2: a file lies under the digest of its content', async () => {
    const { blobs } = shop()
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'
    const blob = await storeBlob(blobs, bytesOf('a', '', 'bc'), png, { at: minute(1) })
    expect(blob).toEqual({ sha256: abc, sizeBytes: 3, mediaType: 'image/png', storedAt: minute(1) })
    const { path, sizeBytes } = await blobFile(blobs, abc)
    expect(path).toBe(join(shop().folder.blobs, abc.slice(0, 2), abc.slice(2)))
    expect([sizeBytes, await readFile(path, 'utf8')]).toEqual([3, 'abc'])
    expect(await blobOf(shop().database, abc)).toEqual(blob)
  })

  test('a part of a file is read as a part', async () => {
    const { blobs } = shop()
    const { sha256: address } = await storeBlob(blobs, bytesOf('0123456789'), png, {
      at: minute(1),
    })
    const part = await readBlob(blobs, address, { from: 3, to: 5 })
    let text = ''
    for await (const bytes of part) text += String(bytes)
    expect(text).toBe('345')
  })

  test('the same content is kept once', async () => {
    const { blobs } = shop()
    await clearBlobs(blobs, { at: new Date(Date.now() + 2 * DAY * 60_000) })
    const both = [bytesOf('twice'), bytesOf('twi', 'ce')]
    const [one, two] = await Promise.all(
      both.map((bytes) => storeBlob(blobs, bytes, png, { at: minute(1) })),
    )
    expect(one).toEqual(two)
    expect(await files()).toHaveLength(1)
  })

  test('a file over the limit is refused at the first byte over, and nothing stays', async () => {
    const { blobs } = shop()
    const before = await files()
    let sent = 0
    const endless = (async function* () {
      for (;;) yield new Uint8Array((sent += 30) && 30)
    })()
    const refused = await storeBlob(blobs, endless, png, { at: minute(1) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(refused, 'too large') && refused.message).toContain('more than 100 bytes')
    expect(sent).toBe(120)
    expect(await files()).toEqual(before)
    const whole = await storeBlob(blobs, bytesOf('x'.repeat(100)), png, { at: minute(1) })
    expect(whole.sizeBytes).toBe(100)
  })

  test('a sender who breaks off leaves nothing', async () => {
    const { blobs } = shop()
    const before = await files()
    const broken = (async function* () {
      yield new Uint8Array(10)
      throw new Error('connection lost')
    })()
    await expect(storeBlob(blobs, broken, png, { at: minute(1) })).rejects.toThrow(
      'connection lost',
    )
    expect(await files()).toEqual(before)
  })

  test('nothing from outside becomes a path', async () => {
    const { blobs } = shop()
    const names = [
      '../../yellowroom.json',
      '..',
      '',
      'a'.repeat(63),
      `${'a'.repeat(64)}/x`,
      sha256('x'),
    ]
    for (const name of [...names, `../${'a'.repeat(64)}`, 'A'.repeat(64), `${'a'.repeat(64)}\n`]) {
      const error = await blobFile(blobs, name).catch((cause: unknown) => cause)
      expect([name, isFailure(error, 'not found')]).toEqual([name, true])
    }
  })

  test('what no record names is cleared after a day, and nothing else', async () => {
    const { blobs, database } = shop()
    const late = { at: new Date(Date.now() + 2 * DAY * 60_000) }
    await clearBlobs(blobs, late)
    const { original } = await fillWithSample(shop())
    const loose = await storeBlob(blobs, bytesOf('loose'), png, { at: minute(1) })
    const film = { kind: 'read', name: 'named', originalBlob: loose.sha256 } as const
    const { id } = await addFilm(database, film, { at: minute(2) })
    expect(await clearBlobs(blobs, { at: minute(DAY * 10) })).toEqual({ files: 0, bytes: 0 })
    await removeFilm(database, id)
    expect(await clearBlobs(blobs, { at: minute(DAY) })).toEqual({ files: 0, bytes: 0 })
    await blobs.turns.whileKept(async () => {
      expect(await clearBlobs(blobs, { at: minute(DAY + 2) })).toEqual({ files: 0, bytes: 0 })
    })
    expect(await clearBlobs(blobs, { at: minute(DAY + 2) })).toEqual({ files: 1, bytes: 5 })
    await expect(blobOf(database, loose.sha256)).rejects.toThrow('There is no such file')
    expect(await blobFile(blobs, original.sha256)).toMatchObject({ sizeBytes: 18 })
  })

  test('content that comes again within the day is new again', async () => {
    const { blobs, database } = shop()
    const { sha256: address } = await storeBlob(blobs, bytesOf('again'), png, { at: minute(1) })
    await storeBlob(blobs, bytesOf('again'), png, { at: minute(DAY) })
    await clearBlobs(blobs, { at: minute(DAY + 5) })
    expect((await blobOf(database, address)).storedAt).toEqual(minute(DAY))
    expect((await blobFile(blobs, address)).sizeBytes).toBe(5)
  })

  test('a sound shop is found sound; a changed and a lost file are named', async () => {
    const { blobs, database } = shop()
    const { film, original } = await fillWithSample(shop())
    const files: number[] = []
    const sound = await checkShop(shop(), { at: minute(99) }, (done) => files.push(done))
    expect(sound).toMatchObject({
      kind: 'check',
      verdict: 'sound',
      rows: { film: 1, band: 4, reading: 3, shop: 1 },
      blobs: { count: 3, bytes: 18 + 15 + 12, damaged: [], missing: [] },
      dangling: [],
    })
    expect([files, sound.durable]).toEqual([[1, 2, 3], shop().engine === 'server' ? null : true])
    await writeFile((await blobFile(blobs, original.sha256)).path, 'not what came')
    const lost = sha256('never came')
    await database
      .insertInto('blob')
      .values({ sha256: lost, sizeBytes: 3, mediaType: 'image/png', storedAt: minute(1) })
      .execute()
    const damaged = await checkShop(shop(), { at: minute(99) })
    expect(damaged).toMatchObject({
      verdict: 'damaged',
      blobs: { damaged: [original.sha256], missing: [lost] },
    })
    expect(film.originalBlob).toBe(original.sha256)
    await clearBlobs(blobs, { at: new Date(Date.now() + 2 * DAY * 60_000) })
  })
}
