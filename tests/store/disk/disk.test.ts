import { spawnSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { THOROUGH } from '../../thorough.testing.ts'
import { QUICK_START } from '../quickStart.ts'
import { emptyShopIn, scratch } from '../scratch.ts'

const SCENES = fileURLToPath(new URL('inNamespace.mjs', import.meta.url))
const folder = scratch()

/** Whether this system lets a process have mounts of its own, as root or not. */
const canMount =
  spawnSync('unshare', ['-rm', 'mount', '-t', 'tmpfs', 'tmpfs', folder], { stdio: 'ignore' })
    .status === 0
const why = 'this system lets nobody mount a small disk: unshare -rm mount -t tmpfs fails'

/** Plays a scene on a disk of its own; what it told, in one record. */
async function play(scene: string): Promise<Record<string, unknown>> {
  const disk = join(folder, scene)
  mkdirSync(disk)
  const emptyShop = await emptyShopIn(join(folder, `${scene}, empty shop`))
  const args = ['-rm', process.execPath, ...QUICK_START, SCENES, scene, disk, emptyShop]
  const { stdout, stderr } = spawnSync('unshare', args, { encoding: 'utf8', timeout: 100_000 })
  expect(stderr).toBe('')
  const told = stdout.trim().split('\n')
  return Object.assign({}, ...told.map((line) => JSON.parse(line) as object)) as Record<
    string,
    unknown
  >
}

const full = [
  'cannot write',
  expect.stringMatching(/^The disk that holds (".*"|the database) is full: make room there/),
]
const closed = [
  'cannot write',
  expect.stringMatching(/^Yellowroom may not write in ".*": give its user/),
]

test.runIf(canMount)(
  'a disk that runs full while the shop is open gets a sentence, and loses nothing',
  async () => {
    expect(await play('full while it runs')).toEqual({
      blob: full,
      left: [[], []],
      stillThere: ['before'],
      refusal: full,
      savedSome: true,
      again: 'done',
      heldAll: true,
      afterRestart: 1,
    })
  },
  120_000,
)

test.runIf(canMount && THOROUGH)(
  'a database that stops for want of room says so, and goes on when there is some',
  async () => {
    expect(await play('full under the log')).toEqual({
      refusal: full,
      again: full,
      more: [full, full],
      held: ['before'],
      afterRestart: ['before', 'after'],
    })
  },
  120_000,
)

test.runIf(canMount && THOROUGH)(
  'a shop on a full disk gets a sentence, and opens when there is room',
  async () => {
    expect(await play('full at the start')).toEqual({ refused: full, opened: 'done' })
  },
  120_000,
)

test.runIf(canMount)(
  'a disk too small for a new shop gets a sentence; the next start makes the shop',
  async () => {
    expect(await play('too small')).toEqual({ refused: full, opened: 'done', unfinished: false })
  },
  120_000,
)

test.runIf(canMount)(
  'a disk that may only be read gets a sentence',
  async () => {
    expect(await play('read-only')).toEqual({ shop: closed, empty: closed, none: closed })
  },
  120_000,
)

if (!canMount) test.skip(`small disks are not tried: ${why}`, () => undefined)
