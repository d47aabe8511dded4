import { readFile } from 'node:fs/promises'
import { describe, expect, test } from 'vitest'
import { everyCommand } from '../../src/cli/commands.ts'
import { entriesOf, GLOSSARY } from '../../src/cli/glossary.ts'
import { CALLED, usage } from '../../src/cli/helpText.ts'
import { json, run } from './run.ts'

const CONTRACT = [
  'forecast',
  'dose',
  'films',
  'inks',
  'fabric',
  'moire',
  'wedge',
  'strip',
  'calibrate',
  'mat',
  'read',
  'inspect',
  'place',
  'session',
  'start',
  'backup',
  'restore',
  'export',
  'import',
  'check',
  'password',
  'help',
]

test('help lists what works and nothing else, and no command means help', async () => {
  const { exit, out } = await run([])
  expect(exit).toBe(0)
  expect([...out.matchAll(/^ {2}(\w+) {2,}\S/gm)].map(([, name]) => name)).toEqual(CONTRACT)
  for (const args of [['help'], ['--help'], ['-h']]) expect((await run(args)).out).toBe(out)
})

describe.each(await everyCommand())('$name', (command) => {
  test('its help shows every option, the example and what it prints', async () => {
    const { exit, out } = await run([command.name, '--help'])
    expect(exit).toBe(0)
    expect(out).toBe((await run(['help', command.name])).out)
    expect(out).toContain(`${CALLED} ${usage(command)}`)
    for (const { name, about } of command.options) {
      expect(out).toContain(`--${name}`)
      expect(out.replace(/\s+/g, ' ')).toContain(about)
    }
    expect(out).toContain(`Example:\n  ${CALLED} ${command.example.line}\n`)
    expect(command.example.line.split(' ')[0]).toBe(command.name)
  })

  test('as JSON it is one value', async () => {
    expect(await json(['help', command.name])).toMatchObject({
      kind: 'help',
      commands: [{ name: command.name, summary: command.summary, usage: usage(command) }],
    })
  })

  test('no line is wider than a terminal can show', async () => {
    const { out } = await run(['help', command.name])
    const wide = out.split('\n').filter((line) => line.length > 110 && !line.includes(CALLED))
    expect(wide).toEqual([])
  })
})

test('--help wins over what else is missing', async () => {
  expect((await run(['wedge', '--dose', '--help'])).exit).toBe(0)
})

describe('the glossary', () => {
  test('is the page in docs, to the word', async () => {
    const page = await readFile(GLOSSARY, 'utf8')
    const lines = page.split('\n').filter((line) => line.startsWith('- '))
    const entries = entriesOf(page)
    expect(entries.length).toBe(lines.length)
    expect(entries.length).toBeGreaterThanOrEqual(45)
    expect(await json(['help', 'glossary'])).toEqual({ kind: 'glossary', entries })
    const { out } = await run(['help', 'glossary'])
    for (const { word, meaning } of entries) {
      expect(out.replace(/\s+/g, ' ')).toContain(`${word} ${meaning}`)
    }
  })

  test('is in order, with each word once', async () => {
    const words = entriesOf(await readFile(GLOSSARY, 'utf8')).map(({ word }) => word)
    const order = new Intl.Collator('en').compare
    expect(words).toEqual([...words].sort(order))
    expect(new Set(words).size).toBe(words.length)
  })

  test('has the words of the answers', async () => {
    const words = entriesOf(await readFile(GLOSSARY, 'utf8')).map(({ word }) => word)
    const used = [
      'skin dose',
      'hold dose',
      'full dose',
      'latitude',
      'fog limit',
      'durable',
      'holds',
    ]
    expect(words).toEqual(
      expect.arrayContaining([...used, 'no dose', 'veiled', 'soft', 'light unit']),
    )
  })
})
