// npm run kernels: compiles tools/kernels/*.ts to machine code that runs anywhere, and writes it as
// text into src/kernels, where it is committed: building and running Yellowroom needs no compiler.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { fileURLToPath } from 'node:url'

const SOURCES = new URL('kernels/', import.meta.url)
const TARGET = new URL('../src/kernels/', import.meta.url)
const OPTIONS = ['-O3', '--converge', '--enable', 'simd', '--runtime', 'stub', '--use', 'abort=']

/** The text of the source file that holds a kernel's code. @throws Error with what the compiler says */
export async function compiledKernel(name) {
  const { default: asc } = await import('assemblyscript/asc')
  const source = readFileSync(new URL(name, SOURCES), 'utf8')
  let bytes = null
  let said = ''
  const stderr = {
    write: (words) => {
      said += words
    },
  }
  const { error } = await asc.main([name, ...OPTIONS, '--outFile', 'kernel.wasm'], {
    readFile: (path) => (basename(path) === name ? source : null),
    writeFile: (_, content) => {
      bytes = content
    },
    listFiles: () => [],
    stderr,
  })
  if (error !== null || bytes === null) throw new Error(`${error?.message}\n${said}`)
  return textOf(name, Buffer.from(bytes).toString('base64'))
}

export function kernelNames() {
  return readdirSync(SOURCES).filter((name) => name.endsWith('.ts'))
}

/** Where the compiled kernel of that source stands. */
export function kernelFile(name) {
  return new URL(name.replace(/\.ts$/, 'Code.ts'), TARGET)
}

function textOf(name, base64) {
  const lines = base64.match(/.{1,90}/g).map((line) => `  '${line}',`)
  return [
    `// Compiled from tools/kernels/${name} by npm run kernels; not to be changed by hand.`,
    '',
    '/** A WebAssembly module, base64. */',
    `export const ${name.replace(/\.ts$/, '')}Code: string = [`,
    ...lines,
    "].join('')",
    '',
  ].join('\n')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of kernelNames()) {
    writeFileSync(kernelFile(name), await compiledKernel(name))
    process.stdout.write(`${name}\n`)
  }
}
