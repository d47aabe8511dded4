import type { Stream } from './command.ts'

const BAR_WIDTH = 30
const LINE_EVERY = 0.25
/** Work that is done sooner says nothing. */
const SILENT_MS = 700

/** Tells how far a piece of work has come, 0 … 1; call it as often as it pleases you. */
export type Progress = Readonly<{ at: (share: number) => void; done: () => void }>

/** A bar that is drawn over on a terminal, plain lines at each quarter otherwise. */
export function progressOn(stderr: Stream, title: string): Progress {
  return stderr.isTTY === true ? bar(stderr, title) : lines(stderr, title)
}

function bar(stderr: Stream, title: string): Progress {
  const began = performance.now()
  let shown = -1
  return {
    at: (share) => {
      if (performance.now() - began < SILENT_MS) return
      const percent = Math.floor(share * 100)
      if (percent === shown) return
      shown = percent
      const full = Math.round(share * BAR_WIDTH)
      const drawn = '#'.repeat(full) + '.'.repeat(BAR_WIDTH - full)
      stderr.write(`\r${title} ${drawn} ${String(percent).padStart(3)} %`)
    },
    done: () => {
      if (shown >= 0) stderr.write(`\r${' '.repeat(title.length + BAR_WIDTH + 7)}\r`)
    },
  }
}

function lines(stderr: Stream, title: string): Progress {
  const began = performance.now()
  let next = LINE_EVERY
  return {
    at: (share) => {
      if (share < next || performance.now() - began < SILENT_MS) return
      stderr.write(`${title}: ${Math.floor(share * 100)} %\n`)
      next = (Math.floor(share / LINE_EVERY) + 1) * LINE_EVERY
    },
    done: () => undefined,
  }
}
