import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { sha256 } from './sha256.ts'

test.each([
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
])('oracle sha2: %j', (text, hex) => {
  const hash = sha256()
  hash.add(Buffer.from(text))
  expect(Buffer.from(hash.end()).toString('hex')).toBe(hex)
})

test('invariant: the hash that OpenSSL gives, whatever the parts', () => {
  const parts = fc.array(fc.uint8Array({ maxLength: 200 }), { maxLength: 9 })
  fc.assert(
    fc.property(parts, (all) => {
      const hash = sha256()
      for (const part of all) hash.add(part)
      const theirs = createHash('sha256').update(Buffer.concat(all)).digest()
      expect(Buffer.compare(theirs, hash.end())).toBe(0)
    }),
    { seed: 8, numRuns: 300 },
  )
})
