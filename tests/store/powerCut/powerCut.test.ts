import { cp, mkdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { NodeFS } from '@electric-sql/pglite/nodefs'
import { sql } from 'kysely'
import { describe, expect, test } from 'vitest'
import { blobPath } from '../../../src/store/blobs/blobPlace.ts'
import { sha256Of, storeBlob } from '../../../src/store/blobs/blobStore.ts'
import { turns } from '../../../src/store/blobs/turns.ts'
import { type Database, databaseOver, inTransaction } from '../../../src/store/database/database.ts'
import { poolOver } from '../../../src/store/database/engine.ts'
import { migrate } from '../../../src/store/database/migrate.ts'
import { DurableNodeFS } from '../../../src/store/embedded/durableFs.ts'
import { type OpenDatabase, openDatabase } from '../../../src/store/embedded/openDatabase.ts'
import { claimFolder, madeFolder, placesIn } from '../../../src/store/folder/shopFolder.ts'
import { queueJob } from '../../../src/store/jobs.ts'
import { openShop } from '../../../src/store/openShop.ts'
import { addPerson } from '../../../src/store/people.ts'
import { THOROUGH } from '../../thorough.testing.ts'
import { chance } from '../crash/children.ts'
import { minute } from '../sampleRoom.ts'
import { bytesOf } from '../sampleShop.ts'
import { emptyShopIn, scratch } from '../scratch.ts'
import { type Recording, recordDisk, type Step } from './diskRecorder.ts'
import { cutPower } from './powerCut.ts'

/** Chances that a write which was not flushed is there after the cut. */
const KEPT = THOROUGH ? [0, 0.5, 0.9] : [0.5]
const CUTS = THOROUGH ? { promised: 2, any: 2 } : { promised: 1, any: 0 }
const folder = scratch()

/** The database in this thread, where its writing can be watched. */
function over(open: OpenDatabase): Database {
  return databaseOver(
    poolOver({
      waitReady: Promise.resolve(),
      execProtocolStream: async (message) => (await open.execute(message)).messages,
      revive: async () => undefined,
    }),
  )
}

/** Forty commits with files between them, checkpoints and new log files; each promised when it returns. */
async function work(database: Database, shop: string, recording: Recording): Promise<void> {
  const blobs = { database, folder: placesIn(shop), turns: turns() }
  for (let number = 1; number <= 40; number++) {
    const at = minute(number)
    await inTransaction(database, async (inner) => {
      await addPerson(inner, { name: `row ${number}`, role: 'printer' }, { at })
      const payload = { number, filling: 'x'.repeat((number * 37) % 900) }
      await queueJob(inner, { kind: `row ${number}`, payload }, { at })
    })
    recording.promise(`row ${number}`)
    if (number % 11 === 0) await sql`checkpoint`.execute(database)
    if (number === 17) await sql`select pg_switch_wal()`.execute(database)
    if (number % 4 === 0) {
      const wanted = { mediaType: 'image/png', limitBytes: 2 ** 20 }
      const bytes = bytesOf(`film ${number} `.repeat(number * 1000))
      const { sha256 } = await storeBlob(blobs, bytes, wanted, { at })
      recording.promise(`blob ${sha256}`)
    }
  }
}

/** Opens what is left and counts what was promised and is not there; the rest must be whole. */
async function lostIn(shop: string, steps: readonly Step[]): Promise<readonly string[]> {
  const open = await openShop(shop)
  try {
    const { database } = open
    const people = await database.selectFrom('person').select('name').execute()
    const jobs = await database.selectFrom('job').select('kind').execute()
    expect(people.map(({ name }) => name).sort()).toEqual(jobs.map(({ kind }) => kind).sort())
    const there = new Set(people.map(({ name }) => name))
    for (const { sha256 } of await database.selectFrom('blob').select('sha256').execute()) {
      const digest = await sha256Of(blobPath(open.folder, sha256)).catch(() => null)
      if (digest === sha256) there.add(`blob ${sha256}`)
    }
    await addPerson(database, { name: 'after the cut', role: 'lead' }, { at: minute(999) })
    const promised = steps.flatMap((step) => (step.kind === 'promised' ? [step.what] : []))
    return promised.filter((what) => !there.has(what))
  } finally {
    await open.close()
  }
}

/** A shop at work, recorded once; what it held before was all on the disk. */
const recorded = (async () => {
  const shop = await emptyShopIn(join(folder, 'working'))
  const before = await emptyShopIn(join(folder, 'before'))
  const recording = recordDisk(shop)
  try {
    const open = await openDatabase(shop)
    await work(over(open), shop, recording)
  } finally {
    recording.stop()
  }
  return { root: shop, from: before, steps: recording.steps }
})()

describe('the power fails while the shop works', () => {
  const random = chance(23)

  test.each(KEPT)(
    'unflushed writes kept with the chance %d: all that was promised is there',
    async (kept) => {
      const { root, from, steps } = await recorded
      expect(steps.filter(({ kind }) => kind === 'promised')).toHaveLength(50)
      expect(steps.filter(({ kind }) => kind === 'sync').length).toBeGreaterThan(100)
      for (const moment of moments(steps, { ...CUTS, random })) {
        const to = join(folder, `cut ${kept} ${moment}`)
        const until = steps.slice(0, moment)
        await cutPower({ from, to }, { root, steps: until, kept, random })
        expect([moment, await lostIn(to, until)]).toEqual([moment, []])
        await rm(to, { recursive: true })
      }
    },
    200_000,
  )
})

describe.runIf(THOROUGH)(
  'the power fails again while the shop recovers from the first time',
  () => {
    const random = chance(26)

    test('only what recovery wrote is flushed, and all that was promised before and since is there', async () => {
      const { root, from, steps } = await recorded
      const once = join(folder, 'once')
      const first = steps.slice(0, moments(steps, { promised: 1, any: 0, random })[0])
      await cutPower({ from, to: once }, { root, steps: first, kept: 0.5, random })
      const flushed = join(folder, 'once, flushed')
      await cp(once, flushed, { recursive: true })
      const recording = recordDisk(once)
      try {
        const database = over(await openDatabase(once))
        await inTransaction(database, async (inner) => {
          await addPerson(inner, { name: 'row 99', role: 'lead' }, { at: minute(99) })
          await queueJob(inner, { kind: 'row 99', payload: null }, { at: minute(99) })
        })
        recording.promise('row 99')
      } finally {
        recording.stop()
      }
      const since = recording.steps
      const syncs = since.filter(({ kind }) => kind === 'sync').length
      expect(syncs).toBeGreaterThan(3)
      if (process.platform === 'linux') expect(syncs).toBeLessThan(400) // of a thousand files
      const points = [since.length, ...moments(since, { promised: 0, any: 2, random })]
      for (const [at, moment] of points.entries()) {
        const to = join(folder, `twice ${at}`)
        const second = since.slice(0, moment)
        await cutPower({ from: flushed, to }, { root: once, steps: second, kept: at / 3, random })
        expect([moment, await lostIn(to, [...first, ...second])]).toEqual([moment, []])
        await rm(to, { recursive: true })
      }
    }, 200_000)
  },
)

describe.runIf(THOROUGH)('the power fails during the first start', () => {
  let recordedFirst: ReturnType<typeof begin> | null = null
  const begun = (): ReturnType<typeof begin> => (recordedFirst ??= begin())
  const begin = async () => {
    await recorded // one at a time: everything this process writes is watched
    const root = join(folder, 'first')
    await mkdir(root)
    const recording = recordDisk(root)
    try {
      await claimFolder(await madeFolder(root), { alone: true })
      const open = await openDatabase(root)
      const database = over(open)
      await migrate(database)
      await addPerson(database, { name: 'row 1', role: 'lead' }, { at: minute(1) })
      await queueJob(database, { kind: 'row 1', payload: null }, { at: minute(1) })
      recording.promise('row 1')
    } finally {
      recording.stop()
    }
    return { root, from: null, steps: recording.steps }
  }
  const random = chance(24)

  test('right after the first thing was promised, with nothing kept that was not flushed', async () => {
    const { root, from, steps } = await begun()
    const to = join(folder, 'first promised')
    await cutPower({ from, to }, { root, steps, kept: 0, random })
    expect(await lostIn(to, steps)).toEqual([])
  }, 200_000)

  test.each(KEPT)(
    'at any moment, kept %d: the next start makes the shop',
    async (kept) => {
      const { root, from, steps } = await begun()
      for (const moment of moments(steps, { promised: 0, any: 1, random })) {
        const to = join(folder, `first ${kept} ${moment}`)
        const until = steps.slice(0, moment)
        await cutPower({ from, to }, { root, steps: until, kept, random })
        expect([moment, await lostIn(to, until)]).toEqual([moment, []])
      }
    },
    200_000,
  )
})

describe('the simulated cut bites', () => {
  test('a database whose flushes do nothing does not start', async () => {
    const shop = await emptyShopIn(join(folder, 'never flushed'))
    const [durable, asItComes] = [DurableNodeFS, NodeFS].map(({ prototype }) =>
      Object.getOwnPropertyDescriptor(prototype, 'init'),
    )
    try {
      Object.defineProperty(DurableNodeFS.prototype, 'init', asItComes ?? {})
      await expect(openDatabase(shop)).rejects.toThrow(
        'would not reach the disk before a power cut',
      )
    } finally {
      Object.defineProperty(DurableNodeFS.prototype, 'init', durable ?? {})
    }
  })

  test('without the flushes, promised rows are lost', async () => {
    const { root, from, steps } = await (async () => {
      const shop = await emptyShopIn(join(folder, 'unflushed'))
      const before = await emptyShopIn(join(folder, 'unflushed before'))
      const recording = recordDisk(shop)
      const open = await openDatabase(shop)
      await work(over(open), shop, recording)
      recording.stop()
      const deaf = recording.steps.filter(
        ({ kind, ...step }) =>
          kind !== 'sync' || !('path' in step && step.path.includes('/database/')),
      )
      return { root: shop, from: before, steps: deaf }
    })()
    const to = join(folder, 'lost')
    await cutPower({ from, to }, { root, steps, kept: 0, random: chance(25) })
    const lost = await lostIn(to, steps).catch((cause: unknown) => [String(cause)])
    expect(lost.length).toBeGreaterThan(0)
  }, 200_000)
})

/** Moments to cut at: right after something was promised, and any others. */
function moments(
  steps: readonly Step[],
  { promised, any, random }: Readonly<{ promised: number; any: number; random: () => number }>,
): readonly number[] {
  const after = steps.flatMap((step, at) => (step.kind === 'promised' ? [at + 1] : []))
  const pick = (from: readonly number[]): number => from[Math.floor(random() * from.length)] ?? 0
  const all = steps.map((_, at) => at + 1)
  return [
    ...Array.from({ length: promised }, () => pick(after)),
    ...Array.from({ length: any }, () => pick(all)),
  ]
}
