import { type ReactNode, useEffect, useRef } from 'react'
import type { Lab } from '../../core/colour/space.ts'
import { srgbFromLab } from '../../core/colour/srgb.ts'
import { DOT_ORDERS } from '../../core/halftone/dotShapes.ts'
import type { Halftone } from '../../core/halftone/halftone.ts'

const [WIDE_PX, HIGH_PX] = [216, 148]
const RIM_PX = 18
const CELL_PX = 9

/** An ink as it would be pulled on a scrap of paper, from full to pale with the dots it is printed in. */
export function PulledChip({
  lab,
  halftone,
  angleDeg,
  stock,
}: Readonly<{
  lab: Lab
  halftone: Halftone | null
  angleDeg: number
  stock: Lab | null
}>): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const brush = canvas.current?.getContext('2d') ?? null
    if (brush === null) return
    const image = brush.createImageData(WIDE_PX, HIGH_PX)
    paintChip(image.data, { lab, halftone, angleDeg, stock })
    brush.putImageData(image, 0, 0)
  }, [lab, halftone, angleDeg, stock])
  return (
    <canvas
      ref={canvas}
      className="pulled-chip"
      width={WIDE_PX}
      height={HIGH_PX}
      aria-hidden="true"
    />
  )
}

const PAPER: Lab = [97, 0, 3]

function paintChip(
  into: Uint8ClampedArray,
  { lab, halftone, angleDeg, stock }: Parameters<typeof PulledChip>[0],
): void {
  const [ink, paper] = [lab, stock ?? PAPER].map((colour) =>
    srgbFromLab(colour).map((value) => Math.round(255 * value)),
  )
  const turn = (angleDeg * Math.PI) / 180
  const [cos, sin] = [Math.cos(turn) / CELL_PX, Math.sin(turn) / CELL_PX]
  const order = halftone?.kind === 'dot' ? DOT_ORDERS[halftone.shape] : null
  for (let y = 0, to = 0; y < HIGH_PX; y++) {
    for (let x = 0; x < WIDE_PX; x++, to += 4) {
      const torn = rough(x, 3) + 4
      const tornSide = rough(y, 5) + 4
      const isPaper = y >= torn && y < HIGH_PX - torn && x >= tornSide && x < WIDE_PX - tornSide
      const down = (y - RIM_PX) / (HIGH_PX - 2 * RIM_PX)
      const isInked = down >= 0 && down <= 1 && x >= RIM_PX && x < WIDE_PX - RIM_PX
      const covers = isInked && (order === null ? flat(x, y, down, halftone) : isDot(x, y, down))
      const [red = 0, green = 0, blue = 0] = (covers ? ink : paper) ?? []
      into[to] = red
      into[to + 1] = green
      into[to + 2] = blue
      into[to + 3] = isPaper ? 255 : 0
    }
  }

  function isDot(x: number, y: number, down: number): boolean {
    const at = { x: centred(x * cos - y * sin), y: centred(-x * sin - y * cos) }
    const share = Math.max(0, 1.15 - 1.25 * down)
    // a dot reaches to where its order covers that share of the cell, near enough for a chip
    return (
      (order?.(at) ?? 2) <
      (halftone?.kind === 'dot' && halftone.shape === 'line' ? share : (4 / Math.PI) * share)
    )
  }
}

function centred(cells: number): number {
  return 2 * (cells - Math.floor(cells)) - 1
}

/** Without dots it ends as a brush does; scattered dots grow rare. */
function flat(x: number, y: number, down: number, halftone: Halftone | null): boolean {
  if (halftone === null) return down < 0.78 + 0.04 * rough(x, 9)
  return rough(Math.floor(x / 3) + 311 * Math.floor(y / 3), 1) / 5 < 1.1 - 1.2 * down
}

/** 0 … 5, the same for the same place. */
function rough(at: number, seed: number): number {
  const mixed = Math.imul(Math.imul(at + 17 * seed, 0x9e37_79b1) ^ 0x85eb_ca6b, 0xc2b2_ae35) >>> 0
  return (5 * mixed) / 2 ** 32
}
