import type { Written } from '../curve.ts'
import type { Cut } from '../marks/cut.ts'
import type { Random } from '../random.ts'

/** Where the quay's stones begin. */
export const QUAY_MM = 226

/** Cuts an outline: to be peeled, or to stay. */
export type Knife = (ring: Written) => readonly Cut[]
export type Knives = Readonly<{ open: Knife; keep: Knife; random: Random }>

/** A row of gables on the left bank: lit fronts, dark fronts, windows with bars. */
export function houses({ open, keep, random }: Knives): readonly Cut[] {
  const out: Cut[] = []
  const pane = (
    x: number,
    y: number,
    lit: boolean,
    [wide, tall]: readonly [number, number] = [5.4, 8],
  ): void => {
    out.push(...(lit ? open : keep)(box([x, y], [wide, tall])))
    const barMm = random.between(0.35, 0.7)
    const cross = lit ? keep : open
    out.push(...cross(box([x + wide / 2 - barMm / 2, y + 0.02], [barMm, tall - 0.04])))
    out.push(...cross(box([x + 0.02, y + tall * 0.42], [wide - 0.04, barMm])))
  }
  // First: dark, only the roof's edge catches the moon.
  out.push(...open('29,148 41.5,128 54,148 52.4,148 41.5,130.8 30.6,148'))
  for (const [x, y, lit] of [
    [33, 154, 1],
    [44.4, 154, 0],
    [33, 170, 0],
    [44.4, 170, 1],
    [33, 187, 1],
    [44.4, 187, 1],
  ] as const) {
    if (lit === 1) pane(x, y, true)
  }
  out.push(...open('38.8,138 41.5,134.4 44.2,138 44.2,143 38.8,143'))
  out.push(...open(box([35, 205], [6, QUAY_MM - 206])), ...keep(box([39.2, 215], [0.9, 0.9])))
  // Second: a stepped gable in full moonlight.
  out.push(
    ...open([
      [57, QUAY_MM - 1],
      [57, 152],
      [61, 152],
      [61, 145],
      [65, 145],
      [65, 138],
      [69, 138],
      [69, 131],
      [77, 131],
      [77, 138],
      [81, 138],
      [81, 145],
      [85, 145],
      [85, 152],
      [89, 152],
      [89, QUAY_MM - 1],
    ]),
  )
  for (const y of [157, 174, 191]) for (const x of [61, 70.3, 79.6]) pane(x, y, false, [5.4, 9])
  out.push(
    ...keep(box([70, 142], [6, 7.4])),
    ...open('71,143 75,143 75,148.4 71,148.4'),
    ...keep(box([72.7, 142.4], [0.5, 6.6])),
  )
  out.push(
    ...keep(box([64, 209], [8, QUAY_MM - 209])),
    ...open(box([65.4, 210.6], [5.2, 4])),
    ...keep('76,212 85,212 85,219 76,219'),
    ...open('77,213 84,213 84,218 77,218'),
  )
  out.push(
    ...keep(box([57, 169], [32, 0.8])),
    ...keep(box([57, 186], [32, 0.6])),
    ...keep(box([57, 204], [32, 1])),
  )
  // Third: a low dark shop, its window bright, its tiles ruled with light.
  out.push(...open('92,168 97,156 119,156 124,168'))
  for (let row = 0; row < 5; row += 1)
    out.push(...keep(box([91.4, 158 + row * 2.2], [33.4, 0.25 + 0.18 * row])))
  out.push(...open(box([95, 176], [26, 17])))
  for (let bar = 1; bar < 6; bar += 1)
    out.push(...keep(box([95 + bar * 4.33 - 0.2, 176.05], [0.4, 16.9])))
  out.push(...keep('97,193 99,186 103,183 106,187 109,182 114,186 118,193'))
  out.push(
    ...open(box([95, 198], [8, 27])),
    ...keep(box([98.7, 198.1], [0.6, 26.8])),
    ...open(box([108, 202], [13, 9])),
  )
  // Chimneys with their lit sides, and a thread of smoke.
  out.push(...open(box([47.6, 127], [1.6, 9])), ...open(box([113, 146], [1.4, 9])))
  out.push(...open('114,143 116.2,136 113.4,128 117,118 114.2,127.6 117.4,136'))
  // The quay.
  out.push(
    ...open([
      [26, QUAY_MM],
      [136, QUAY_MM],
      [136, QUAY_MM + 2.6],
      [26, QUAY_MM + 3],
    ]),
  )
  for (let x = 34; x < 134; x += random.between(7, 12))
    out.push(...keep(box([x, QUAY_MM], [random.between(0.2, 0.45), 3])))
  return out
}

function box([x, y]: readonly [number, number], [wide, tall]: readonly [number, number]): Written {
  return [
    [x, y],
    [x + wide, y],
    [x + wide, y + tall],
    [x, y + tall],
  ]
}
