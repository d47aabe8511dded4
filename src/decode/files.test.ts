import {
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
} from 'node:fs'
import { basename } from 'node:path'
import { inflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { type FailureKind, isFailure } from '../core/failure.ts'
import type { ByteSink } from '../formats/bytes.ts'
import { deflater } from './deflater.ts'
import { type Overwriting, refuseExisting, writeWhole } from './files.ts'
import { temporary } from './temporary.testing.ts'

const { path, put } = temporary()
const text = (words: string) => (sink: ByteSink) => sink.write(Buffer.from(words))
const parts = (): string[] => readdirSync(path('.')).filter((name) => name.endsWith('.part'))

async function refused(work: Promise<void>, kind: FailureKind, words: string): Promise<void> {
  const caught: unknown = await work.then(
    () => 'it was written',
    (error: unknown) => error,
  )
  if (!isFailure(caught)) throw new Error('expected a Failure', { cause: caught })
  expect([caught.kind, caught.message]).toEqual([kind, expect.stringContaining(words)])
  expect(caught.message).toMatch(/^[^\n]+\.$/)
  expect(parts()).toEqual([])
}

/** Both doors refuse alike. */
async function refusedAtBothDoors(to: string, of: Overwriting, kind: FailureKind, words: string) {
  await refused(refuseExisting(to, of), kind, words)
  await refused(writeWhole(to, of, text('new')), kind, words)
}

describe('a file that is whole', () => {
  test('appears with what was written, corrections included', async () => {
    await writeWhole(path('whole.txt'), { force: false }, async (sink) => {
      await sink.write(Buffer.from('0123'))
      expect(existsSync(path('whole.txt'))).toBe(false)
      await sink.write(Buffer.from('4567'))
      await sink.rewrite(2, Buffer.from('ab'))
    })
    expect(readFileSync(path('whole.txt'), 'utf8')).toBe('01ab4567')
    expect(parts()).toEqual([])
  })

  test('replaces one that is there when forced', async () => {
    const file = put('old.txt', 'old and longer')
    await writeWhole(file, { force: true }, text('new'))
    expect(readFileSync(file, 'utf8')).toBe('new')
  })

  test('is written through a link, which stays one', async () => {
    const file = put('linked.txt', 'old')
    symlinkSync(file, path('link.txt'))
    await writeWhole(path('link.txt'), { force: true }, text('new'))
    expect(readFileSync(file, 'utf8')).toBe('new')
    expect(lstatSync(path('link.txt')).isSymbolicLink()).toBe(true)
  })

  test('may have the longest name a disk takes', async () => {
    const name = path('n'.repeat(255))
    await writeWhole(name, { force: false }, text('new'))
    expect(readFileSync(name, 'utf8')).toBe('new')
  })
})

describe('what is refused', () => {
  test('a file that is there', async () => {
    const file = put('there.txt', 'old')
    await refusedAtBothDoors(file, { force: false }, 'already there', 'add --force')
    expect(readFileSync(file, 'utf8')).toBe('old')
  })

  test('a file that came while we wrote', async () => {
    const late = writeWhole(path('late.txt'), { force: false }, async (sink) => {
      await sink.write(Buffer.from('ours'))
      put('late.txt', 'theirs')
    })
    await refused(late, 'already there', 'late.txt')
    expect(readFileSync(path('late.txt'), 'utf8')).toBe('theirs')
  })

  test('the file being read, forced or not, by any of its names', async () => {
    const file = put('input.tif', 'film')
    linkSync(file, path('second-name.tif'))
    symlinkSync(file, path('third-name.tif'))
    for (const name of ['input.tif', 'second-name.tif', 'third-name.tif', `./input.tif`]) {
      const of = { force: true, inputs: [path('missing.tif'), file] }
      await refusedAtBothDoors(path(name), of, 'wrong input', 'is the file being read')
    }
    expect(readFileSync(file, 'utf8')).toBe('film')
  })

  test('a folder, no folder, a file for a folder, a device, a name too long', async () => {
    mkdirSync(path('dir'))
    put('file', '')
    await refusedAtBothDoors(path('dir'), { force: true }, 'wrong input', 'is a folder')
    await refusedAtBothDoors(
      path('none/out.png'),
      { force: false },
      'cannot write',
      'There is no folder',
    )
    await refusedAtBothDoors(path('file/out.png'), { force: false }, 'cannot write', 'no folder')
    await refusedAtBothDoors('/dev/null', { force: true }, 'cannot write', 'is no plain file')
    const long = path('n'.repeat(256))
    await refusedAtBothDoors(long, { force: false }, 'cannot write', 'the name is too long')
  })

  test.skipIf(!existsSync('/dev/full') || !existsSync('/proc'))(
    'a place that takes no new file',
    async () => {
      const nothingNew = writeWhole('/proc/out.png', { force: false }, text('new'))
      await refused(nothingNew, 'cannot write', 'Cannot write "/proc/out.png"')
    },
  )

  test('nothing is left when the writing fails, and the old file stays', async () => {
    const file = put('stays.txt', 'old')
    const fails = writeWhole(file, { force: true }, async (sink) => {
      await sink.write(Buffer.from('half'))
      throw new RangeError('the writer failed')
    })
    await expect(fails).rejects.toThrow('the writer failed')
    expect(readFileSync(file, 'utf8')).toBe('old')
    expect(readdirSync(path('.')).filter((name) => name.startsWith('.'))).toEqual([])
    expect(basename(file)).toBe('stays.txt')
  })
})

test('the deflater gives zlib streams that zlib reads, the same each time', async () => {
  const bytes = Uint8Array.from({ length: 300_000 }, (_, at) => (at * at) % 251)
  const streamed = async (): Promise<Buffer> => {
    const stream = deflater({ level: 2 }).stream()
    const out: Uint8Array[] = []
    for (let at = 0; at < bytes.length; at += 7001) {
      out.push(...(await stream.push(bytes.subarray(at, at + 7001))))
    }
    return Buffer.concat([...out, ...(await stream.end())])
  }
  expect(new Uint8Array(inflateSync(await streamed()))).toEqual(bytes)
  expect(await streamed()).toEqual(await streamed())
  expect(new Uint8Array(inflateSync(await deflater().whole(bytes)))).toEqual(bytes)
})
