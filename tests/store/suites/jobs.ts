import { expect, test } from 'vitest'
import type { Share } from '../../../src/core/units/quantity.ts'
import { share } from '../../../src/core/units/quantity.ts'
import { endJob, freeJobs, holdJob, takeJob } from '../../../src/store/jobLease.ts'
import { cancelJob, forgetJobs, jobOf, openJobs, queueJob } from '../../../src/store/jobs.ts'
import { minute } from '../sampleRoom.ts'
import type { Bench } from './bench.ts'

const worker = (name: string) => ({ name, kinds: ['render'], leaseSec: 60 })
const render = (number: number) => ({ kind: 'render', payload: { number } })
const progress = (done: number): { leaseSec: number; progressShare: Share } => ({
  leaseSec: 60,
  progressShare: share(done),
})

/** A queue that several workers share. */
export function jobSuite({ shop }: Bench): void {
  test('jobs are taken in their order, each once, of the kinds that a worker knows', async () => {
    const { database } = shop()
    const first = await queueJob(database, render(1), { at: minute(1) })
    const later = { ...render(2), startAfter: minute(9) }
    const second = await queueJob(database, later, { at: minute(2) })
    await queueJob(database, { kind: 'sing', payload: null }, { at: minute(0) })
    expect(await takeJob(database, worker('a'), { at: minute(3) })).toMatchObject({
      id: first.id,
      state: 'running',
      attempts: 1,
      worker: 'a',
      leaseUntil: minute(4),
      startedAt: minute(3),
      payload: { number: 1 },
    })
    expect(await takeJob(database, worker('b'), { at: minute(3) })).toBeNull()
    expect((await takeJob(database, worker('b'), { at: minute(9) }))?.id).toBe(first.id)
    expect((await takeJob(database, worker('b'), { at: minute(9) }))?.id).toBe(second.id)
  })

  test('the work goes on where it was, after its worker fell silent', async () => {
    const { database } = shop()
    const { id } = await queueJob(database, render(1), { at: minute(1) })
    await takeJob(database, worker('a'), { at: minute(2) })
    const held = { id, worker: 'a' }
    const at = minute(2)
    const half = { ...progress(0.5), progressWords: 'strip 4 of 8', resumeFrom: { strip: 4 } }
    expect(await holdJob(database, held, half, { at })).toBe('go on')
    const again = await takeJob(database, worker('b'), { at: minute(10) })
    expect(again).toMatchObject({
      id,
      worker: 'b',
      attempts: 2,
      resumeFrom: { strip: 4 },
      progressShare: 0.5,
      progressWords: 'strip 4 of 8',
      startedAt: minute(2),
    })
    expect(await holdJob(database, held, progress(0.75), { at: minute(10) })).toBe('lost')
    expect(await endJob(database, held, { state: 'done', result: 'a' }, { at: minute(10) })).toBe(
      false,
    )
    const mine = { id, worker: 'b' }
    expect(await endJob(database, mine, { state: 'done', result: ['b'] }, { at: minute(11) })).toBe(
      true,
    )
    expect(await jobOf(database, id)).toMatchObject({
      state: 'done',
      result: ['b'],
      progressShare: 1,
      finishedAt: minute(11),
      leaseUntil: null,
    })
  })

  test('a job that ends its worker each time is failed with a sentence', async () => {
    const { database } = shop()
    const job = { ...render(1), mostAttempts: 2 }
    const { id } = await queueJob(database, job, { at: minute(1) })
    for (const turn of [10, 20])
      expect(await takeJob(database, worker('a'), { at: minute(turn) })).not.toBeNull()
    expect(await takeJob(database, worker('a'), { at: minute(30) })).toBeNull()
    const failed = await jobOf(database, id)
    expect(failed.state).toBe('failed')
    expect(failed.trouble).toMatch(/[.]$/)
  })

  test('a waiting job is cancelled at once, a running one at its next word', async () => {
    const { database } = shop()
    const waiting = await queueJob(database, render(1), { at: minute(1) })
    expect(await cancelJob(database, waiting.id, { at: minute(2) })).toMatchObject({
      state: 'cancelled',
      finishedAt: minute(2),
    })
    const { id } = await queueJob(database, render(2), { at: minute(3) })
    await takeJob(database, worker('a'), { at: minute(4) })
    expect((await cancelJob(database, id, { at: minute(4) })).state).toBe('running')
    const held = { id, worker: 'a' }
    expect(await holdJob(database, held, progress(0.25), { at: minute(4) })).toBe('stop')
    await endJob(database, held, { state: 'cancelled' }, { at: minute(5) })
    expect((await cancelJob(database, id, { at: minute(6) })).state).toBe('cancelled')
  })

  test('the same work asked twice is one job, until it is finished', async () => {
    const { database } = shop()
    const work = { ...render(1), workKey: 'film 1, set-up 2' }
    const first = await queueJob(database, work, { at: minute(1) })
    expect(await queueJob(database, work, { at: minute(2) })).toEqual(first)
    await takeJob(database, worker('a'), { at: minute(3) })
    expect((await queueJob(database, work, { at: minute(3) })).id).toBe(first.id)
    await endJob(
      database,
      { id: first.id, worker: 'a' },
      { state: 'failed', trouble: 'Too large.' },
      { at: minute(4) },
    )
    expect((await queueJob(database, work, { at: minute(5) })).id).not.toBe(first.id)
  })

  test('what ran when the shop was shut waits again, or is cancelled as was asked', async () => {
    const { database } = shop()
    const [one, two] = [
      await queueJob(database, render(1), { at: minute(1) }),
      await queueJob(database, render(2), { at: minute(2) }),
    ]
    for (const _ of [one, two]) await takeJob(database, worker('a'), { at: minute(3) })
    await cancelJob(database, two.id, { at: minute(3) })
    expect(await freeJobs(database, { at: minute(3) })).toBe(1)
    expect((await openJobs(database)).map(({ id, state }) => [id, state])).toEqual([
      [one.id, 'queued'],
    ])
    expect((await jobOf(database, two.id)).state).toBe('cancelled')
    expect(await forgetJobs(database, { finishedBefore: minute(3) })).toBe(0)
    expect(await forgetJobs(database, { finishedBefore: minute(4) })).toBe(1)
  })

  test('a crowd of workers shares a queue and nobody works twice', async () => {
    const { database } = shop()
    for (let number = 0; number < 24; number++)
      await queueJob(database, render(number), { at: minute(1) })
    const taken: string[] = []
    const work = async (name: string): Promise<void> => {
      for (;;) {
        const job = await takeJob(database, worker(name), { at: minute(2) })
        if (job === null) return
        taken.push(job.id)
        await endJob(
          database,
          { id: job.id, worker: name },
          { state: 'done', result: null },
          { at: minute(2) },
        )
      }
    }
    await Promise.all(['a', 'b', 'c', 'd', 'e', 'f'].map(work))
    expect(taken).toHaveLength(24)
    expect(new Set(taken).size).toBe(24)
    expect(await openJobs(database)).toEqual([])
  })
}
