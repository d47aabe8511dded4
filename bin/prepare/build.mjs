import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { bundle, PACKED } from './bundle.mjs'
import { lockMark } from './packages.mjs'
import { Trouble } from './trouble.mjs'

const MARK = 'dist/.yellowroom-built'
const COMPILED = /\.tsx?$/
const NOT_BUILT = /\.(test|testing)\.tsx?$/
const OUTPUT = /(\.d\.ts|\.js)(\.map)?$/
/** The bundlers sweep their own folders. */
const BUNDLED = /^dist\/(?:web-app|run)\//

/** Name, size and time of everything the compiler reads, as a short text; milliseconds. */
export function sourceMark(root) {
  const hash = createHash('sha256').update(lockMark(root))
  const files = [...walk(root, 'src')].filter(
    (path) => (COMPILED.test(path) && !NOT_BUILT.test(path)) || path.endsWith('tsconfig.json'),
  )
  for (const path of [
    ...files.sort((a, b) => (a < b ? -1 : 1)),
    'tsconfig.json',
    'tsconfig.base.json',
  ]) {
    const { size, mtimeMs } = statSync(join(root, path))
    hash.update(`${path} ${size} ${mtimeMs}\n`)
  }
  return hash.digest('hex')
}

export function isBuilt(root) {
  return existsSync(join(root, PACKED, 'main.js')) && readMark(root) === sourceMark(root)
}

/** @throws Trouble when the sources do not compile, after the compiler's own lines */
export async function build(root, { say }) {
  const mark = sourceMark(root) // before: what is saved meanwhile is built the next time
  const whole = readMark(root) === null // somebody emptied dist: its build records may outlive it
  const { code, output } = await compile(root, whole ? ['-b', '--force'] : ['-b'])
  if (code !== 0) {
    say(output.trimEnd())
    throw new Trouble('The sources do not compile; the lines above say where.', 1)
  }
  sweep(root)
  await bundle(root).catch((cause) => {
    say(String(cause.message))
    throw new Trouble('The program could not be packed; the lines above say why.', 1)
  })
  writeFileSync(join(root, MARK), mark)
}

/** The compiler leaves the output of a source that is gone; nothing may import it. */
function sweep(root) {
  for (const path of walk(root, 'dist')) {
    if (!OUTPUT.test(path) || BUNDLED.test(path)) continue
    const source = path.replace(/^dist/, 'src').replace(OUTPUT, '')
    const stands = ['.ts', '.tsx'].some((ending) => existsSync(join(root, source + ending)))
    if (!stands) rmSync(join(root, path))
  }
}

function compile(root, args) {
  return new Promise((resolve, reject) => {
    const tsc = join(root, 'node_modules/typescript/bin/tsc')
    const child = spawn(process.execPath, [tsc, ...args], { cwd: root, stdio: 'pipe' })
    const parts = []
    child.stdout.on('data', (part) => parts.push(part))
    child.stderr.on('data', (part) => parts.push(part))
    child.on('error', ({ code }) => {
      reject(new Trouble(`The compiler could not be started (${code}).`, 3))
    })
    child.on('close', (code) => resolve({ code, output: Buffer.concat(parts).toString() }))
  })
}

function readMark(root) {
  try {
    return readFileSync(join(root, MARK), 'utf8')
  } catch {
    return null
  }
}

function* walk(root, folder) {
  for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
    const path = `${folder}/${entry.name}`
    if (entry.isDirectory()) yield* walk(root, path)
    else yield path
  }
}
