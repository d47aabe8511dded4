import type { Context, Hono } from 'hono'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { z } from 'zod'
import { Failure } from '../../core/failure.ts'
import { asked } from './asked.ts'

/** The contract's answer as we may give it: nothing of ours is changed by whoever reads it. */
export type Told<Value> = Value extends readonly (infer Part)[]
  ? readonly Told<Part>[]
  : Value extends object
    ? { readonly [Key in keyof Value]: Told<Value[Key]> }
    : Value

/** What a route is handed, already read. */
export type Given<Query, Body> = Readonly<{
  query: Query
  body: Body
  /** What stands in the path. */
  place: (name: string) => string
  request: Request
  /** Sends a header along with the answer. */
  withHeader: (name: string, value: string) => void
}>

/** One way in: what it takes, what it answers, in the contract's own schemas. */
export type RouteOf<Query, Body, Answer> = Readonly<{
  method: 'get' | 'post' | 'patch' | 'delete'
  /** With `{name}` where something stands in the path. */
  path: string
  summary: string
  query?: z.ZodType<Query>
  /** JSON; `file` when the body is a file of any kind, which the route reads itself. */
  body?: z.ZodType<Body> | 'file'
  /** Null: nothing comes back. */
  answer: z.ZodType<Answer> | null
  status?: 201 | 202
  run: (given: Given<Query, Body>) => Promise<Told<Answer>>
}>

/** What is asked once a question was read, before anything is done. */
export type BeforeRun = Readonly<{ Variables: { beforeRun?: () => Promise<void> } }>

/** A route of which nobody needs to know more than its words. */
export type Route = Readonly<{
  words: RouteOf<unknown, unknown, unknown>
  handle: (context: Context) => Promise<Response>
}>

const MOST_JSON_BYTES = 2 ** 20
const JSON_HEADERS = { 'content-type': 'application/json', 'cache-control': 'no-store' } as const

export function route<Query = undefined, Body = undefined, Answer = null>(
  words: RouteOf<Query, Body, Answer>,
): Route {
  /** An answer that is kept is written down once. */
  const texts = new WeakMap<object, Buffer>()
  const textOf = (answer: object): Buffer => {
    const text = texts.get(answer) ?? Buffer.from(JSON.stringify(answer))
    texts.set(answer, text)
    return text
  }
  return {
    words: words as unknown as Route['words'],
    handle: async (context) => {
      const { query, body, status = 200, run } = words
      const given = {
        query: asked(query ?? NOTHING, context.req.query()) as Query,
        body: (body === undefined || body === 'file'
          ? undefined
          : asked(body, await jsonOf(context.req.raw))) as Body,
        place: (name: string) => context.req.param(name) ?? '',
        request: context.req.raw,
        withHeader: (name: string, value: string) => context.header(name, value),
      }
      await (context as Context<BeforeRun>).get('beforeRun')?.()
      const answer = await run(given)
      if (words.answer === null) return context.body(null, 204, { 'cache-control': 'no-store' })
      const text = textOf(answer as object)
      const headers = { ...JSON_HEADERS, 'content-length': String(text.length) }
      return context.body(new Uint8Array(text), status as ContentfulStatusCode, headers)
    },
  }
}

export function addRoutes(app: Hono, routes: readonly Route[]): void {
  for (const { words, handle } of routes) {
    const path = words.path.replaceAll(/\{(\w+)\}/g, ':$1')
    app.on(words.method.toUpperCase(), path, handle)
  }
}

/** Routes without a query take none. */
const NOTHING = { safeParse: () => ({ success: true, data: undefined }) } as unknown as z.ZodType

/** @throws Failure for a body that is no JSON, or too long */
async function jsonOf(request: Request): Promise<unknown> {
  const type = request.headers.get('content-type') ?? ''
  if (!/^application\/json\b/i.test(type)) {
    throw new Failure(
      'wrong input',
      'What is sent here must be JSON, with the content type application/json.',
    )
  }
  const bytes = await wholeBody(request, MOST_JSON_BYTES)
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as unknown
  } catch (cause) {
    throw new Failure(
      'wrong input',
      'What was sent is no JSON: check its commas, brackets and letters.',
      {
        cause,
      },
    )
  }
}

async function wholeBody(request: Request, most: number): Promise<Uint8Array> {
  const tooLong = (): Failure =>
    new Failure(
      'too large',
      `What was sent is longer than ${most / 2 ** 20} MB, and no question is that long.`,
    )
  if (Number(request.headers.get('content-length') ?? 0) > most) throw tooLong()
  const parts: Uint8Array[] = []
  let size = 0
  if (request.body === null) return new Uint8Array(0)
  for await (const part of request.body as unknown as AsyncIterable<Uint8Array>) {
    size += part.length
    if (size > most) throw tooLong()
    parts.push(part)
  }
  return Buffer.concat(parts)
}
