import type { Context } from 'hono'
import type { Sink } from '../../store/backup/tar.ts'

/** An answer that is sent while it is written, no faster than it is taken. */
export function streamed(
  context: Context,
  contentType: string,
  write: (sink: Sink) => Promise<unknown>,
): Response {
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>()
  const writer = writable.getWriter()
  void write((bytes) => writer.write(bytes))
    .then(
      () => writer.close(),
      (cause: unknown) => writer.abort(cause),
    )
    .catch(() => undefined) // whoever asked has gone
  return context.body(readable, 200, {
    'content-type': contentType,
    'cache-control': 'no-store',
  })
}
