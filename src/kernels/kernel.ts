/** What a kernel offers: functions of whole numbers, and its memory. */
export type Kernel = Readonly<{
  memory: Readonly<{ buffer: ArrayBuffer }>
  /** @throws RangeError for a name it has not */
  call: (name: string, ...numbers: readonly number[]) => number
  /**
   * A function itself, for whoever calls it often.
   *
   * @throws RangeError for a name it has not
   */
  named: (name: string) => (...numbers: number[]) => number
}>

type Machine = Readonly<{
  Module: new (bytes: Uint8Array) => object
  Instance: new (module: object) => Readonly<{ exports: Readonly<Record<string, unknown>> }>
}>

declare const WebAssembly: Machine

/** Few, and the same again and again: machine code is made quicker while it runs, for all its kernels. */
const MODULES = new Map<string, object>()

function moduleOf(base64: string): object {
  const module = MODULES.get(base64) ?? new WebAssembly.Module(bytesOf(base64))
  MODULES.set(base64, module)
  return module
}

/** A kernel with a memory of its own, made from its code. */
export function kernelOf(base64: string): Kernel {
  const module = moduleOf(base64)
  const { exports } = new WebAssembly.Instance(module)
  const memory = exports['memory'] as Kernel['memory']
  const named: Kernel['named'] = (name) => {
    const own = exports[name]
    if (typeof own !== 'function') throw new RangeError(`kernel: expected ${name}, got none`)
    return own as (...numbers: number[]) => number
  }
  return { memory, call: (name, ...numbers) => named(name)(...numbers), named }
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'
const VALUES = new Uint8Array(128)
for (let value = 0; value < LETTERS.length; value++) VALUES[LETTERS.charCodeAt(value)] = value

/** Base64 by hand: no layer below the platform's has a function for it. */
function bytesOf(base64: string): Uint8Array {
  const text = base64.replace(/=+$/, '')
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4))
  let bits = 0
  let held = 0
  let to = 0
  for (let from = 0; from < text.length; from++) {
    bits = (bits << 6) | VALUES[text.charCodeAt(from)]
    held += 6
    if (held < 8) continue
    held -= 8
    bytes[to] = bits >> held
    bits &= (1 << held) - 1
    to += 1
  }
  return bytes
}
