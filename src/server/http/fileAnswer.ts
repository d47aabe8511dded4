import type { Context } from 'hono'

/** Bytes under a file's name, to be shown in the browser or kept. */
export function fileAnswer(
  context: Context,
  bytes: Uint8Array<ArrayBuffer>,
  { type, name }: Readonly<{ type: string; name: string }>,
): Response {
  return context.body(bytes, 200, {
    'content-type': type,
    'content-disposition': `inline; filename="${name}"`,
    'cache-control': 'no-store',
  })
}
