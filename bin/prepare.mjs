import { realpathSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build, isBuilt } from './prepare/build.mjs'
import { notWritable, underLock } from './prepare/lock.mjs'
import {
  countPackages,
  hadTests,
  install,
  installedSet,
  markInstalled,
} from './prepare/packages.mjs'
import { arePagesBuilt, buildPages } from './prepare/pages.mjs'
import { Trouble } from './prepare/trouble.mjs'

const ROOT = fileURLToPath(new URL('..', import.meta.url))
const OLDEST_NODE = [20, 19]

/**
 * Makes this folder ready to run: installs the packages of the lockfile and compiles the sources
 * where that has not been done, and says so; milliseconds and silence where it has.
 *
 * Only Node.js's own modules are imported here, for nothing else is there yet.
 *
 * @param {{ tests?: boolean, root?: string, say?: (line: string) => void }} options
 * @throws Trouble in one sentence
 */
export async function prepare({ tests = false, root = ROOT, say = sayOnStderr } = {}) {
  refuseOldNode(process.versions.node)
  if (isReady(root, tests)) return
  await underLock(join(root, 'dist/preparing.lock'), { say }, async () => {
    const set = setToInstall(root, tests)
    if (set !== 'none') {
      const what = set === 'all' ? 'to run and test' : 'to run'
      await phase(say, `Installing ${countPackages(root, set)} packages ${what}`, () =>
        install(root, { set, say }),
      )
    }
    if (!isBuilt(root)) await phase(say, 'Building', () => build(root, { say }))
    if (!arePagesBuilt(root)) {
      await phase(say, 'Building the pages', () => buildPages(root, { say }))
    }
    markInstalled(root, installedSet(root))
  }).catch((cause) => {
    throw ['EACCES', 'EPERM', 'EROFS'].includes(cause?.code) ? notWritable(root, cause) : cause
  })
}

function isReady(root, tests) {
  return setToInstall(root, tests) === 'none' && isBuilt(root) && arePagesBuilt(root)
}

function setToInstall(root, tests) {
  const there = installedSet(root)
  if (there === 'all' || (there === 'start' && !tests)) return 'none'
  return tests || hadTests(root) ? 'all' : 'start'
}

async function phase(say, title, work) {
  const began = Date.now()
  say(`${title} …`)
  await work()
  say(`  done in ${((Date.now() - began) / 1000).toFixed(1)} s`)
}

/** @throws Trouble when this Node.js is too old to run what we build */
export function refuseOldNode(version) {
  const [major, minor] = version.split('.').map(Number)
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return
  const asked = OLDEST_NODE.join('.')
  throw new Trouble(
    `Yellowroom needs Node.js ${asked} or later and this is ${version}: install a newer one from nodejs.org.`,
    3,
  )
}

function sayOnStderr(line) {
  process.stderr.write(`${line}\n`)
}

if (
  process.argv[1] !== undefined &&
  realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)
) {
  try {
    await prepare({ tests: process.argv.includes('--tests') })
  } catch (trouble) {
    if (!(trouble instanceof Trouble)) throw trouble
    process.stderr.write(`${trouble.message}\n`)
    process.exitCode = trouble.exit
  }
}
