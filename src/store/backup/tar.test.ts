import fc from 'fast-check'
import { expect, test } from 'vitest'
import { endTar, entriesOf, writeEntry } from './tar.ts'

const at = { at: new Date(Date.UTC(2026, 8, 14, 8, 1, 17)) }

async function* parts(bytes: Uint8Array, size: number): AsyncIterable<Uint8Array> {
  for (let from = 0; from < bytes.byteLength; from += size) yield bytes.subarray(from, from + size)
}

async function tarOf(files: readonly (readonly [string, Uint8Array])[]): Promise<Uint8Array> {
  const written: Uint8Array[] = []
  const sink = async (bytes: Uint8Array): Promise<void> => void written.push(bytes.slice())
  for (const [name, bytes] of files) {
    await writeEntry(sink, { name, sizeBytes: bytes.byteLength, content: parts(bytes, 700) }, at)
  }
  await endTar(sink)
  return Buffer.concat(written)
}

async function filesOf(tar: Uint8Array, size: number): Promise<(readonly [string, Uint8Array])[]> {
  const files: (readonly [string, Uint8Array])[] = []
  for await (const { name, content } of entriesOf(parts(tar, size))) {
    const pieces: Uint8Array[] = []
    for await (const bytes of content) pieces.push(bytes.slice())
    files.push([name, new Uint8Array(Buffer.concat(pieces))])
  }
  return files
}

test('invariant: files come back as they were, in whatever pieces the bytes arrive', async () => {
  const name = fc.stringMatching(/^[a-z0-9/.-]{1,100}$/)
  const bytes = fc.uint8Array({ maxLength: 3000 })
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(name, bytes), { maxLength: 5 }),
      fc.integer({ min: 1, max: 2000 }),
      async (files, size) => {
        const tar = await tarOf(files)
        expect(tar.byteLength % 512).toBe(0)
        expect(await filesOf(tar, size)).toEqual(files)
      },
    ),
    { seed: 32, numRuns: 50 },
  )
})

test('files that nobody reads are passed over', async () => {
  const tar = await tarOf([
    ['one', new Uint8Array(1300).fill(1)],
    ['two', new Uint8Array(3).fill(2)],
  ])
  const names: string[] = []
  for await (const { name } of entriesOf(parts(tar, 400))) names.push(name)
  expect(names).toEqual(['one', 'two'])
})

test('a name, a size or bytes that a tar cannot hold are refused', async () => {
  const sink = async (): Promise<void> => undefined
  const content = parts(new Uint8Array(5), 5)
  const entry = { name: 'x', sizeBytes: 5, content }
  await expect(writeEntry(sink, { ...entry, name: 'a b' }, at)).rejects.toThrow('name: expected')
  await expect(writeEntry(sink, { ...entry, name: 'a'.repeat(101) }, at)).rejects.toThrow(
    'name: expected',
  )
  await expect(writeEntry(sink, { ...entry, sizeBytes: 8 ** 11 }, at)).rejects.toThrow('below 8^11')
  for (const sizeBytes of [4, 6]) {
    const wrong = { name: 'x', sizeBytes, content: parts(new Uint8Array(5), 5) }
    await expect(writeEntry(sink, wrong, at)).rejects.toThrow(`expected ${sizeBytes} bytes`)
  }
})

test('bytes that are no tar, or end too early, are refused', async () => {
  const tar = await tarOf([['one', new Uint8Array(1300).fill(7)]])
  for (const length of [1, 511, 600, 1800, 2048]) {
    await expect(filesOf(tar.subarray(0, length), 300)).rejects.toThrow('tar: expected more bytes')
  }
  const changed = Uint8Array.from(tar)
  changed[0] = 65
  await expect(filesOf(changed, 300)).rejects.toThrow('right checksum')
})
