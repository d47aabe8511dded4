/** What one layer may import: layers by folder name, packages by name, `node:` modules or not. */
export type Allowed = Readonly<{
  layers: readonly string[]
  packages: readonly string[]
  node: boolean
  /** Runs in a browser: has the DOM, a clock and timers. */
  browser?: boolean
}>

/** The arrows of the house. Anything that is not here is a breach. */
export const LAYERS: Readonly<Record<string, Allowed>> = {
  core: { layers: [], packages: [], node: false },
  kernels: { layers: ['core'], packages: [], node: false },
  raster: { layers: ['core', 'kernels'], packages: [], node: false },
  formats: { layers: ['core', 'kernels'], packages: [], node: false },
  demo: { layers: ['core', 'raster'], packages: [], node: false },
  workflow: { layers: ['core', 'raster', 'formats'], packages: ['zod'], node: false },
  decode: {
    layers: ['core', 'formats', 'raster'],
    packages: [
      'sharp',
      '@resvg/resvg-js',
      '@embedpdf/pdfium',
      'pdf-lib',
      'fontkit',
      'fflate',
      'csv-parse',
      '@techstark/opencv-js',
    ],
    node: true,
  },
  api: { layers: ['core'], packages: ['zod'], node: false },
  store: { layers: ['core'], packages: ['@electric-sql/pglite', 'kysely', 'pg'], node: true },
  server: {
    layers: ['core', 'workflow', 'store', 'formats', 'decode', 'demo', 'api'],
    packages: ['hono', '@hono/node-server', 'qrcode', 'zod'],
    node: true,
  },
  web: {
    layers: ['core', 'raster', 'workflow', 'api'],
    packages: ['react', 'react-dom'],
    node: false,
    browser: true,
  },
  cli: {
    layers: ['core', 'raster', 'workflow', 'store', 'formats', 'decode', 'api', 'server'],
    packages: [],
    node: true,
  },
}

const LONGEST_FILE = 300

/** What the compiler lets through in a pure layer, or what it would miss. */
const FORBIDDEN_IN_PURE: Readonly<Record<string, RegExp>> = {
  'the clock': /(?<![.\w])(Date|performance)\b(?!\??:)/,
  randomness: /\bMath\s*\.\s*random\b|\bcrypto\b\s*\./,
  process: /(?<![.\w])process\b\s*[.[]/,
  require: /(?<![.\w])require\s*\(/,
  'a global of all': /(?<![.\w])globalThis\b/,
  'a timer': /(?<![.\w])(setTimeout|setInterval|queueMicrotask)\b/,
}

/** A source file: its path from src/, with forward slashes, and its text. */
export type Source = Readonly<{ path: string; text: string }>

/** Every breach of the house rules in one source file, as sentences; none when it keeps them. */
export function breachesIn({ path, text }: Source): readonly string[] {
  const layer = path.split('/')[0] ?? ''
  const allowed = LAYERS[layer]
  if (allowed === undefined) return [`${path}: ${layer} is no layer of this house`]
  const { bare } = taken(text)
  const breaches = importsOf(text).flatMap((specifier) =>
    importBreach(path, { specifier, allowed }),
  )
  if (!allowed.node && allowed.browser !== true) {
    for (const [name, pattern] of Object.entries(FORBIDDEN_IN_PURE)) {
      if (pattern.test(bare)) breaches.push(`a pure layer must not touch ${name}`)
    }
  }
  if (/\bexport\s+default\b|\bas\s+default\b/.test(bare)) breaches.push('a default export')
  if (/\bexport\s+(type\s+)?(\*|\{[^}]*\}\s*from\b)/.test(bare)) {
    breaches.push('a barrel: it exports what another file holds')
  }
  const lines = text.trimEnd().split('\n').length
  if (lines > LONGEST_FILE) breaches.push(`${lines} lines, more than ${LONGEST_FILE}`)
  return breaches.map((breach) => `${path}: ${breach}`)
}

function importBreach(
  path: string,
  { specifier, allowed }: Readonly<{ specifier: string; allowed: Allowed }>,
): string[] {
  const layer = path.split('/')[0] ?? ''
  if (specifier.startsWith('node:')) return allowed.node ? [] : [`imports ${specifier}`]
  if (!specifier.startsWith('.')) {
    const known = allowed.packages.some(
      (name) => specifier === name || specifier.startsWith(`${name}/`),
    )
    return known ? [] : [`imports the package ${specifier}`]
  }
  const target = resolved(path, specifier)
  if (target === null) return [`imports ${specifier}, which is outside src`]
  const ending = allowed.browser === true ? /\.(tsx?|css)$/ : /\.ts$/
  if (!ending.test(specifier)) return [`imports ${specifier} without the ending .ts`]
  const [to = ''] = target
  return to === layer || allowed.layers.includes(to)
    ? []
    : [`${layer} imports ${to} (${specifier})`]
}

/** Path parts from src/, or null when the way leads out of it. */
function resolved(path: string, specifier: string): readonly string[] | null {
  const parts = path.split('/').slice(0, -1)
  for (const part of specifier.split('/')) {
    if (part === '.') continue
    if (part !== '..') parts.push(part)
    else if (parts.pop() === undefined) return null
  }
  return parts.length > 1 ? parts : null
}

/** Every module a file names: static, dynamic, type-only, re-exported, required. */
export function importsOf(text: string): readonly string[] {
  const { bare, strings } = taken(text)
  const named = bare.matchAll(/\b(?:from|import|require)\s*\(?\s*'(\d+)'/g)
  return [...named].map(([, at]) => strings[Number(at)] ?? '')
}

/** Comments, strings, templates and patterns, in this order of trying. */
const PIECES =
  /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"|`(?:\\.|[^`\\])*`|\/(?![*/])(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\[\n])+\/[a-z]*(?=\s*[.,;)\]}:\n])/g

/**
 * The code with comments taken out, and each string and pattern by its number in quotes; what a
 * template computes stays code.
 */
function taken(text: string): Readonly<{ bare: string; strings: readonly string[] }> {
  const strings: string[] = []
  const bare = text.replace(PIECES, (piece) => {
    if (/^\/[/*]/.test(piece)) return ' '
    const inner = [...piece.matchAll(/\$\{([^}]*)\}/g)].map(([, code]) => `(${code})`)
    if (piece.startsWith('`') && inner.length > 0) return inner.join(' ')
    strings.push(piece.slice(1, -1))
    return `'${strings.length - 1}'`
  })
  return { bare, strings }
}
