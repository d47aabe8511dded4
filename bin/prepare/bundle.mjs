import { readdirSync, rmSync } from 'node:fs'
import { join, relative } from 'node:path'

/** Where the program stands in a few files; the compiler's own output stays beside it. */
export const PACKED = 'dist/run'
const MAIN = 'cli/main.js'
/** What is started by its file's name: its own entry of the bundle, under that name alone. */
const STARTED = /(?:Thread|Process)\.js$/
const STARTED_AT = /\bdist\/[\w/]+\/(\w+(?:Thread|Process)\.js)\b/g
/** Packages with files of their own beside their code: machine code, fonts, programs. */
const LEFT_OUT = [
  'sharp',
  'fontkit',
  'pg-native',
  /^@electric-sql\//,
  /^@embedpdf\//,
  /^@fontsource/,
  /^@resvg\//,
  /^@techstark\//,
]

/**
 * Packs the compiled program into a few files, for Node.js takes a second to open and compile the
 * hundreds of small ones that it is made of, at each start of a command, a thread or the server.
 */
export async function bundle(root) {
  const { rolldown } = await import('rolldown') // not there before the packages are installed
  const dist = join(root, 'dist')
  const started = readdirSync(dist, { recursive: true })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => STARTED.test(path) && !path.startsWith('run/'))
  const entries = [MAIN, ...started].map((path) => [
    path.replace(/^.*\//, '').replace(/\.js$/, ''),
    join(dist, path),
  ])
  const packed = await rolldown({
    input: Object.fromEntries(entries),
    platform: 'node',
    external: [/^node:/, ...LEFT_OUT],
    plugins: [
      { name: 'places', transform: { filter: { id: /[\\/]dist[\\/]/ }, handler: placed(dist) } },
    ],
    onLog: () => undefined,
  })
  rmSync(join(root, PACKED), { recursive: true, force: true })
  await packed.write({
    dir: join(root, PACKED),
    format: 'esm',
    entryFileNames: '[name].js',
    chunkFileNames: '[name]-[hash].js',
    // fewer bytes to read; names stay, for what went wrong to be told
    minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
  })
  await packed.close()
}

/** A module finds the files beside it from where it stood, and what it starts in the bundle. */
function placed(dist) {
  return (code, id) => {
    if (!code.includes('import.meta.url') && !code.includes('dist/')) return null
    const stood = relative(join(dist, 'run'), id).replaceAll('\\', '/')
    return code
      .replaceAll('import.meta.url', `new URL(${JSON.stringify(stood)}, import.meta.url).href`)
      .replaceAll(STARTED_AT, 'dist/run/$1')
  }
}
