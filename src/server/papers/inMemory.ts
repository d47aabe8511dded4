import type { ByteSink } from '../../formats/bytes.ts'

/** What a writer wrote, whole: for papers, which are small. */
export async function inMemory(
  write: (sink: ByteSink) => Promise<void>,
): Promise<Uint8Array<ArrayBuffer>> {
  const parts: Uint8Array[] = []
  const changes: (readonly [offset: number, bytes: Uint8Array])[] = []
  await write({
    write: async (bytes) => void parts.push(bytes.slice()),
    rewrite: async (offset, bytes) => void changes.push([offset, bytes.slice()]),
  })
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const part of parts) {
    whole.set(part, at)
    at += part.length
  }
  for (const [offset, bytes] of changes) whole.set(bytes, offset)
  return whole
}
