import { execFile } from 'node:child_process'
import { mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'
import { sql } from 'kysely'
import { expect, test } from 'vitest'
import { isFailure } from '../../../src/core/failure.ts'
import { backupShop, backupTo } from '../../../src/store/backup/backupShop.ts'
import { restoreShop } from '../../../src/store/backup/restoreShop.ts'
import { tablesInOrder } from '../../../src/store/backup/tablesInOrder.ts'
import { blobFile, readBlob } from '../../../src/store/blobs/blobStore.ts'
import { clearBlobs } from '../../../src/store/blobs/clearBlobs.ts'
import { checkShop } from '../../../src/store/check.ts'
import { exportRecords } from '../../../src/store/export/exportRecords.ts'
import { addFilm, films } from '../../../src/store/films.ts'
import { type OpenShop, openShop } from '../../../src/store/openShop.ts'
import { minute } from '../sampleRoom.ts'
import { fillWithSample } from '../sampleShop.ts'
import type { Bench } from './bench.ts'

/** Everything in a shop, as text: what a restored one must say again, to the sign. */
async function everythingIn({ database }: OpenShop): Promise<Record<string, readonly string[]>> {
  const all: Record<string, readonly string[]> = {}
  for (const table of await tablesInOrder(database)) {
    if (table === 'upkeep') continue // a backup notes itself after it was made
    const { rows } = await sql<{ line: string }>`
      select t::text as line from ${sql.table(table)} t order by 1`.execute(database)
    all[table] = rows.map(({ line }) => line)
  }
  return all
}

const FUTURE = new Date(Date.UTC(2090, 1, 1))

/** A backup is one file, and a shop again. */
export function backupSuite({ shop, another, kind }: Bench): void {
  const target = (name: string): string => join(dirname(shop().folder.path), `${kind}-${name}`)

  async function filled(): Promise<void> {
    await clearBlobs(shop().blobs, { at: FUTURE })
    const { original } = await fillWithSample(shop())
    for (let count = 0; count < 1200; count += 300) {
      await shop()
        .database.insertInto('film')
        .values(
          Array.from({ length: 300 }, (_, at) => ({
            id: String(count + at).padStart(26, '0'),
            kind: 'read' as const,
            name: `film ${count + at}: ${'long '.repeat(30)}`,
            status: 'refused' as const,
            refusal: 'It is a "photo",\nof {a} cat\\; scan the film. 猫',
            originalBlob: original.sha256,
            createdAt: minute(at),
          })),
        )
        .execute()
    }
  }

  test('a restored shop says what the first one said, on either engine', async () => {
    await filled()
    const path = target('whole.backup')
    const summary = await backupShop(shop(), { path }, { at: minute(200) })
    expect(summary).toMatchObject({ blobs: 3, damaged: [], missing: [] })
    expect(summary.bytes).toBe((await stat(path)).size)
    const there = await another('restored')
    const restored = await restoreShop(path, there)
    expect(restored).toEqual({
      backupAt: minute(200),
      rows: summary.rows,
      blobs: 3,
      damaged: [],
      missing: [],
    })
    const { folder, ...options } = there
    const again = await openShop(folder, options)
    try {
      expect(await everythingIn(again)).toEqual(await everythingIn(shop()))
      const health = await checkShop(again, { at: minute(201) })
      expect(health).toMatchObject({ verdict: 'sound', blobs: { count: 3 } })
      const [newest] = await films(again.database, { limit: 1 })
      const bytes = await readBlob(again.blobs, newest?.originalBlob ?? '')
      let text = ''
      for await (const part of bytes) text += String(part)
      expect(text).toBe('a film, as it came')
    } finally {
      await again.close()
    }
  })

  test('whoever reads a backup or an export slowly keeps nobody from the shop', async () => {
    await filled()
    const { database, blobs, folder } = shop()
    let asked = 0
    // between one part and the next somebody else asks the shop something
    const sink = async (): Promise<void> => {
      asked += 1
      await sql`select 1 from film limit 1`.execute(database)
    }
    await backupTo({ database, blobs }, sink, { at: minute(200) })
    expect(asked).toBeGreaterThan(3)
    const before = asked
    await exportRecords({ database, folder }, sink, { at: minute(200) })
    expect(asked).toBeGreaterThan(before)
    expect(await readdir(folder.incoming)).toEqual([])
  })

  test('the same shop gives the same backup, to the byte', async () => {
    await filled()
    const [one, two] = [target('one.backup'), target('two.backup')]
    await backupShop(shop(), { path: one }, { at: minute(200) })
    await sql`delete from upkeep`.execute(shop().database)
    await backupShop(shop(), { path: two }, { at: minute(200) })
    expect((await readFile(one)).equals(await readFile(two))).toBe(true)
  })

  test('oracle ustar: another program reads the backup as a tar', async () => {
    await filled()
    const path = target('tar.backup')
    await backupShop(shop(), { path }, { at: minute(200) })
    const { stdout } = await promisify(execFile)('tar', ['-tvf', path])
    const names = stdout
      .trim()
      .split('\n')
      .map((line) => line.split(/\s+/).at(-1) ?? '')
    expect([names[0], names.at(-1)]).toEqual(['yellowroom-backup.json', 'end.json'])
    expect(names.filter((name) => name.startsWith('blobs/'))).toHaveLength(3)
    const out = target('unpacked')
    await mkdir(out)
    await promisify(execFile)('tar', ['-xf', path, '-C', out])
    const rows = await readdir(join(out, 'rows'))
    const bands = rows.find((name) => name.endsWith('-band.jsonl')) ?? ''
    const lines = (await readFile(join(out, 'rows', bands), 'utf8')).trim().split('\n')
    const doses = lines.map((line) => (JSON.parse(line) as { dose_lu: number }).dose_lu)
    expect(doses.sort((a, b) => a - b)).toEqual([20, 28, 39.2, 42.6])
  })

  test('a backup that is cut off, changed or no backup is refused whole, and the folder stays empty', async () => {
    await filled()
    const path = target('sound.backup')
    await backupShop(shop(), { path }, { at: minute(200) })
    const sound = await readFile(path)
    const change = (at: number): Buffer => {
      const bytes = Buffer.from(sound)
      bytes[at] = (bytes[at] ?? 0) ^ 1
      return bytes
    }
    const blobAt = sound.indexOf('a film, as it came')
    const rowAt = sound.indexOf('"dose_lu":39.2') + 12
    const bad: Readonly<Record<string, Buffer>> = {
      'its last byte missing': sound.subarray(0, sound.length - 1024 - 512),
      'half of it missing': sound.subarray(0, sound.length >> 1),
      'a file changed': change(blobAt + 3),
      'a number changed': change(rowAt),
      'a header changed': change(sound.indexOf('blobs/') + 8),
      'a text': Buffer.from('This is a letter.'.repeat(100)),
      empty: Buffer.alloc(0),
    }
    for (const [what, bytes] of Object.entries(bad)) {
      const file = target('bad.backup')
      await writeFile(file, bytes)
      const there = await another(`bad ${what}`)
      const error = await restoreShop(file, there).catch((cause: unknown) => cause)
      expect([what, isFailure(error, 'unreadable file'), String(error)]).toEqual([
        what,
        true,
        expect.stringMatching(
          /(is damaged \(.*\): restore another one|is no backup of a shop: name the file .*)[.]$/,
        ),
      ])
      expect([what, await readdir(there.folder).catch(() => [])]).toEqual([what, []])
    }
  })

  test('damaged and lost files are told, and all the rest is saved', async () => {
    await clearBlobs(shop().blobs, { at: FUTURE })
    const { original, film } = await fillWithSample(shop())
    await writeFile((await blobFile(shop().blobs, original.sha256)).path, 'rotten')
    await rm((await blobFile(shop().blobs, film.mapBlob ?? '')).path)
    const path = target('hurt.backup')
    const told = { damaged: [original.sha256], missing: [film.mapBlob] }
    expect(await backupShop(shop(), { path }, { at: minute(1) })).toMatchObject(told)
    const there = await another('hurt')
    expect(await restoreShop(path, there)).toMatchObject(told)
    const { folder, ...options } = there
    const again = await openShop(folder, options)
    expect((await films(again.database, { limit: 9 })).map(({ id }) => id)).toEqual([film.id])
    await again.close()
    await clearBlobs(shop().blobs, { at: FUTURE })
  })

  test('nothing is overwritten: not a file, not a folder, not a shop', async () => {
    const path = target('kept.backup')
    await writeFile(path, 'mine')
    const refused = await backupShop(shop(), { path }, { at: minute(1) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(refused, 'already there')).toBe(true)
    expect(await readFile(path, 'utf8')).toBe('mine')
    await backupShop(shop(), { path, force: true }, { at: minute(1) })
    const nowhere = join(target('not there'), 'x.backup')
    const unwritable = await backupShop(shop(), { path: nowhere }, { at: minute(1) }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(unwritable, 'cannot write')).toBe(true)
    const full = await restoreShop(path, { folder: shop().folder.path }).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(full, 'already there')).toBe(true)
    const missing = await restoreShop(target('no.backup'), await another('none')).catch(
      (cause: unknown) => cause,
    )
    expect(isFailure(missing, 'missing file')).toBe(true)
  })

  test('work goes on while a backup is made', async () => {
    await filled()
    const { original } = await shop()
      .database.selectFrom('blob')
      .select('sha256 as original')
      .executeTakeFirstOrThrow()
    const film = { kind: 'read', name: 'meanwhile', originalBlob: original } as const
    const [summary] = await Promise.all([
      backupShop(shop(), { path: target('busy.backup') }, { at: minute(1) }),
      addFilm(shop().database, film, { at: minute(20) }),
    ])
    expect(summary.rows).toBeGreaterThan(1200)
    expect((await films(shop().database, { limit: 1 }))[0]?.name).toBe('meanwhile')
  })
}
