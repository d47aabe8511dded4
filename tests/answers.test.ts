import { readdir, readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { yellowroomApp } from '../src/server/app.ts'
import { shopDoor } from '../src/server/door.ts'

const SRC = fileURLToPath(new URL('../src/', import.meta.url))

type Operation = Readonly<{
  responses: Readonly<Record<string, { content?: { 'application/json'?: { schema: object } } }>>
}>
type Answer = Readonly<{ path: string; method: string; type: string }>

const source = (name: string): Promise<string> => readFile(`${SRC}${name}`, 'utf8')

/** What src/api/paths.ts says of each path by method: the types that the pages are held to. */
async function answersSaid(): Promise<readonly Answer[]> {
  const text = await source('api/paths.ts')
  const known = new Map<string, string>()
  const said: Answer[] = []
  const tell = (path: string, types: string): void => {
    for (const [, method = '', type = ''] of types.matchAll(/(\w+): (\w+)/g)) {
      said.push({ path, method: method.toLowerCase(), type })
    }
  }
  for (const [, key = '', path = '', types] of text.matchAll(
    /^ {2}(\w+): '([^']+)'(?: as Path<([^>]+)>)?,/gm,
  )) {
    known.set(`PATHS.${key}`, path)
    if (types !== undefined) tell(path, types)
  }
  const made = /export const (\w+) = \(\s*\w+[^)]*\):[^`]*`([^`]*)`(?: as Path<([^>]+)>)?/g
  for (const [, name = '', written = '', types] of text.matchAll(made)) {
    const path = written.replaceAll(/\$\{([^}]+)\}/g, (_, part: string) => {
      if (part.startsWith('encodeURIComponent')) return '{}'
      return known.get(part) ?? known.get(part.split('(')[0]) ?? '?'
    })
    known.set(name, path)
    if (types !== undefined) tell(path, types)
  }
  return said
}

/** Each type of the contract with the schema that it was inferred from. */
async function schemaOfType(): Promise<ReadonlyMap<string, z.ZodType>> {
  const found = new Map<string, z.ZodType>()
  for (const file of (await readdir(`${SRC}api`)).filter((name) => name.endsWith('.ts'))) {
    const exported = (await import(`${SRC}api/${file}`)) as Record<string, z.ZodType>
    for (const [, type = '', schema = ''] of (await source(`api/${file}`)).matchAll(
      /export type (\w+) = z\.infer<typeof (\w+)>/g,
    )) {
      const own = exported[schema]
      if (own !== undefined) found.set(type, own)
    }
  }
  return found
}

const jsonSchema = (schema: z.ZodType): object => {
  const { $schema: _, ...rest } = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' })
  return rest
}

test('what a path is said to answer is what the server’s own document says of it', async () => {
  const door = shopDoor(() => Promise.reject(new Error('the test asks for the document alone')))
  await door.settled
  const app = yellowroomApp(door, { token: null })
  const document = (await (await app.request('/api/openapi.json')).json()) as {
    paths: Record<string, Record<string, Operation>>
  }
  const served = new Map(
    Object.entries(document.paths).map(([path, by]) => [path.replaceAll(/\{\w+\}/g, '{}'), by]),
  )
  const schemas = await schemaOfType()
  const said = await answersSaid()
  const amiss: string[] = []
  for (const { path, method, type } of said) {
    const good = Object.entries(served.get(path)?.[method]?.responses ?? {}).find(([status]) =>
      status.startsWith('2'),
    )?.[1]
    const told = good?.content?.['application/json']?.schema
    const schema = schemas.get(type)
    const isSame =
      type === 'null'
        ? good !== undefined && told === undefined
        : schema !== undefined && JSON.stringify(told) === JSON.stringify(jsonSchema(schema))
    if (!isSame) amiss.push(`${method} ${path}: ${type}`)
  }
  expect(amiss).toEqual([])
  expect(said.length).toBeGreaterThan(80)
})

/** The one client, a file's way up with its progress, and tiles of pictures, which are no JSON. */
const MAY_FETCH = ['ask.ts', 'sendFile.ts', 'film/filmTiles.ts', 'films/artworkSamples.ts']

test('no page fetches but through the one client, nor says itself what a path answers', async () => {
  const files = (await readdir(`${SRC}web`, { recursive: true })).filter((name) =>
    /(?<!\.test)\.tsx?$/.test(name),
  )
  const amiss: string[] = []
  for (const file of files) {
    const text = await source(`web/${file}`)
    const fetches = /(?<![.\w])fetch\(|new (XMLHttpRequest|EventSource|WebSocket)\b/.test(text)
    if (fetches && !MAY_FETCH.includes(file)) amiss.push(`${file} fetches`)
    if (/ as (unknown as )?Path</.test(text) && file !== 'ask.ts') {
      amiss.push(`${file} says what a path answers`)
    }
    if (/['"`]\/api\//.test(text)) amiss.push(`${file} writes a path`)
  }
  expect(amiss).toEqual([])
})
