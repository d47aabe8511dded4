import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { lockMark } from './packages.mjs'
import { Trouble } from './trouble.mjs'

const MARK = 'dist/.yellowroom-pages'
const ENTRY = 'src/web/index.html'
/** What the pages are made of: their own folder whole, and the layers they import. */
const LAYERS = ['src/api', 'src/core', 'src/raster', 'src/web', 'src/workflow']
const NOT_BUILT = /\.(test|testing)\.tsx?$/

/** Name, size and time of everything the pages are built from, as a short text; milliseconds. */
function pagesMark(root) {
  const hash = createHash('sha256').update(lockMark(root))
  const files = LAYERS.filter((folder) => existsSync(join(root, folder)))
    .flatMap((folder) => [...walk(root, folder)])
    .filter((path) => !NOT_BUILT.test(path))
    .sort((a, b) => (a < b ? -1 : 1))
  for (const path of [...files, 'vite.config.ts']) {
    const { size, mtimeMs } = statSync(join(root, path))
    hash.update(`${path} ${size} ${mtimeMs}\n`)
  }
  return hash.digest('hex')
}

/** Whether the pages stand built as their sources are now; a house without pages needs none. */
export function arePagesBuilt(root) {
  if (!existsSync(join(root, ENTRY))) return true
  return existsSync(join(root, 'dist/web-app/index.html')) && readMark(root) === pagesMark(root)
}

/** @throws Trouble when the pages cannot be built, after the bundler's own lines */
export async function buildPages(root, { say }) {
  const mark = pagesMark(root) // before: what is saved meanwhile is built the next time
  const { code, output } = await bundle(root)
  if (code !== 0) {
    say(output.trimEnd())
    throw new Trouble('The pages could not be built; the lines above say where.', 1)
  }
  writeFileSync(join(root, MARK), mark)
}

function bundle(root) {
  return new Promise((resolve, reject) => {
    const vite = join(root, 'node_modules/vite/bin/vite.js')
    const child = spawn(process.execPath, [vite, 'build', '--logLevel', 'warn'], {
      cwd: root,
      // whatever the shell is set to: pages made for development do not stand as they should
      env: { ...process.env, NODE_ENV: 'production' },
      stdio: 'pipe',
    })
    const parts = []
    child.stdout.on('data', (part) => parts.push(part))
    child.stderr.on('data', (part) => parts.push(part))
    child.on('error', ({ code }) => {
      reject(new Trouble(`The bundler of the pages could not be started (${code}).`, 3))
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
