import { describe, expect, test } from 'vitest'
import { refused, run } from './run.ts'

const WEDGE = ['wedge', '--dose', '42', '--last-solid', '5']

describe('what cannot be meant is refused in one sentence that names it', () => {
  test.each([
    ['wegde --dose 42', "There is no command 'wegde'. Did you mean wedge?", undefined],
    [
      'calibrate readings.json --until=',
      'The last day is empty; write it in place of DAY.',
      'until',
    ],
    ['banana', "There is no command 'banana'. 'help' lists them.", undefined],
    ['glossary', "There is no command 'glossary'. Did you mean 'help glossary'?", undefined],
    ['WEDGE', 'Did you mean wedge?', undefined],
    ['-x', "There is no command '-x'.", undefined],
    ['wedge --last-solid 5', 'wedge needs --dose LU: the dose that', 'dose'],
    ['wedge --dose 42', 'wedge needs --last-solid K', 'last-solid'],
    ['wedge --dose', '--dose needs a value after it: --dose LU.', 'dose'],
    ['wedge --dose --last-solid 5', '--dose needs a value after it', 'dose'],
    [
      'wedge --dose 42o --last-solid 5',
      "The dose must be a number of light units, like 42. You wrote '42o'.",
      'dose',
    ],
    ['wedge --dose 42lu --last-solid 5', "You wrote '42lu'.", 'dose'],
    ['wedge --dose 4,2 --last-solid 5', 'Write a point for the comma.', 'dose'],
    ['wedge --dose= --last-solid 5', 'You wrote nothing.', 'dose'],
    ['wedge --dose NaN --last-solid 5', "You wrote 'NaN'.", 'dose'],
    ['wedge --dose Infinity --last-solid 5', "You wrote 'Infinity'.", 'dose'],
    ['wedge --dose 1e400 --last-solid 5', "You wrote '1e400'.", 'dose'],
    ['wedge --dose 0x10 --last-solid 5', "You wrote '0x10'.", 'dose'],
    ['wedge --dose 1_000 --last-solid 5', "You wrote '1_000'.", 'dose'],
    ['wedge --dose . --last-solid 5', "You wrote '.'.", 'dose'],
    [
      'wedge --dose -42 --last-solid 5',
      "from 0.01 to 1000000 light units. You wrote '-42'.",
      'dose',
    ],
    ['wedge --dose=-42 --last-solid 5', "You wrote '-42'.", 'dose'],
    ['wedge --dose 0 --last-solid 5', 'from 0.01 to 1000000 light units', 'dose'],
    ['wedge --dose 2e6 --last-solid 5', 'from 0.01 to 1000000 light units', 'dose'],
    ['wedge --dose 42 --last-solid 0', 'a whole number from 1 to 61', 'last-solid'],
    [
      'wedge --dose 42 --last-solid 5.5',
      "a whole number from 1 to 61. You wrote '5.5'.",
      'last-solid',
    ],
    ['wedge --dose 42 --last-solid five', 'a whole number, like 5', 'last-solid'],
    ['wedge --dose 42 --last-solid 5 --increment 15', 'from 0.01 to 0.6', 'increment'],
    ['wedge --dose 42 --dose 43 --last-solid 5', '--dose stands here twice; give it once.', 'dose'],
    ['wedge --doze 42', 'wedge has no option --doze. Did you mean --dose?', 'doze'],
    ['wedge --setup s.json', "wedge has no option --setup. 'help wedge' lists them.", 'setup'],
    ['wedge -d 42', 'wedge has no option -d.', 'd'],
    ['wedge --no-json', 'wedge has no option --no-json.', 'no-json'],
    [
      'wedge extra --dose 42 --last-solid 5',
      "wedge takes nothing without an option's name, so 'extra'",
      undefined,
    ],
    [
      'fabric 90-48 77-55',
      "fabric takes only NAME without an option's name, so '77-55' is one too many.",
      undefined,
    ],
    ['fabric', 'fabric needs a name like 90-48, or', 'NAME'],
    ['fabric 90', 'named by threads per cm and thread diameter in um, like 90-48', 'NAME'],
    ['fabric ninety-48', 'like 90-48', 'NAME'],
    ['fabric 900-48', 'threads per cm', 'NAME'],
    ['fabric 90-5', 'um', 'NAME'],
    ['fabric 120-90', 'no opening', 'threadUm'],
    ['fabric --threads-per-cm 120 --thread-um 90', 'no opening', 'threadUm'],
    ['fabric --threads-per-cm 90', 'add --thread-um D', 'thread-um'],
    ['fabric --thread-um 48', 'add --threads-per-cm N', 'threads-per-cm'],
    ['fabric 90-48 --thread-um 48', 'leave out --thread-um', 'thread-um'],
    ['fabric 90-48 --threads-per-cm 90', 'leave out --threads-per-cm', 'threads-per-cm'],
    [
      'fabric --threads-per-cm ninety --thread-um 48',
      'number of threads per cm, like 90',
      'threads-per-cm',
    ],
    ['strip --low 20 --high 90', 'strip needs --bands N', 'bands'],
    [
      'strip --low 90 --high 20 --bands 5',
      'must lie below the high one. You wrote 90 and 20.',
      'low',
    ],
    ['strip --low 20 --high 20 --bands 5', 'must lie below', 'low'],
    ['strip --low 20 --high 90 --bands 1', 'a whole number from 2 to 60', 'bands'],
    ['strip --low 20 --high 90 --bands 1e9', 'a whole number from 2 to 60', 'bands'],
    ['strip --low 20 --high 90 --bands 2.5', 'a whole number', 'bands'],
    ['help nonsense', "There is no command 'nonsense'.", undefined],
    ['help wedge strip', "so 'strip' is one too many", undefined],
  ])('%s', async (line, words, field) => {
    const { exit, kind, message, field: named } = await refused(line.split(' '))
    expect(message).toContain(words)
    expect({ exit, kind, field: named }).toEqual({ exit: 2, kind: 'wrong input', field })
    expect(message).toMatch(/[.?]$/)
    expect(message).not.toMatch(/invalid|error|oops|submit/i)
  })

  test('a switch takes no value', async () => {
    const { exit, err } = await run([...WEDGE, '--json=yes'])
    expect([exit, err]).toEqual([2, '--json takes no value; write --json alone.\n'])
  })

  test('what was typed comes back on one line, shortened, and moves no cursor', async () => {
    const { message } = await refused(['wedge', '--dose', `4\n2\u001b[31m${'9'.repeat(500)}`])
    expect(message).not.toMatch(/\p{C}/u)
    expect(message.length).toBeLessThan(150)
    const { message: named } = await refused(['fabric', 'a\nb'])
    expect(named).not.toMatch(/\p{C}/u)
  })
})

describe('what people also type works', () => {
  test.each([
    [['wedge', '--dose=42', '--last-solid=5']],
    [['wedge', '--last-solid', '5', '--dose', '42.0']],
    [['wedge', '--dose', '4.2e1', '--last-solid', '+5']],
    [['wedge', '--dose', ' 42'.trim(), '--last-solid', '5', '--target', '7', '--increment', '.15']],
  ])('%j says the same', async (args) => {
    expect((await run(args)).out).toBe((await run(WEDGE)).out)
  })

  test('--json may stand before the command, and -- ends the options', async () => {
    const asJson = (await run(['fabric', '90-48', '--json'])).out
    expect((await run(['--json', 'fabric', '90-48'])).out).toBe(asJson)
    expect((await run(['fabric', '--json', '--', '90-48'])).out).toBe(asJson)
    expect((await run(['fabric', '--', '--json'])).exit).toBe(2)
  })
})

test('a fault of ours is exit 1, one sentence, and its place only when asked for', async () => {
  const broken = {
    stdout: {
      write: () => {
        throw new Error('no\nroom')
      },
    },
  }
  const { main } = await import('../../src/cli/main.ts')
  for (const [env, lines] of [
    [{}, 1],
    [{ YELLOWROOM_TRACE: '1' }, 3],
  ] as const) {
    let err = ''
    const io = { ...broken, stderr: { write: (text: string) => (err += text) }, env }
    expect(await main(['fabric', '90-48'], io)).toBe(1)
    expect(err).toContain('a fault in Yellowroom, not in what you gave it: no room')
    expect(err.split('\n').length - 1).toBeGreaterThanOrEqual(lines)
    if (lines === 1) expect(err.split('\n').length - 1).toBe(1)
  }
})
