import { points } from '../curve.ts'
import { type Depths, depthsOf } from '../shape.ts'
import { type Placed, pearOutline, type Thing, thing } from './still.ts'

/** Where the wall meets the table, and the table's near edge. */
export const TABLE_MM = 128
export const TABLE_EDGE_MM = 252

export type Pear = Readonly<{ form: Thing; place: Placed }>

/** What stands there, from back to front. */
export type StillLife = Readonly<{
  spout: Thing
  body: Thing
  lid: Thing
  knob: Thing
  /** Upright, lying, small. */
  pears: readonly Pear[]
  everything: readonly Thing[]
  shadows: readonly Depths[]
  cloth: Depths
}>

const PEARS: readonly Placed[] = [
  { xMm: 151, yMm: 186, sizeMm: 27, turnDeg: 9 },
  { xMm: 96, yMm: 217, sizeMm: 25, turnDeg: -72 },
  { xMm: 172, yMm: 226, sizeMm: 21, turnDeg: -16 },
]

export function layTable(): StillLife {
  const body = thing(
    points(
      `92,104 112,108 128,122 135,144 132,164 122,178 92,183 62,178 52,164 49,144 56,122 72,108`,
    ),
    { localTone: 0.16 },
  )
  const spout = thing(
    points(`66,168 52,161 41,147 34,128 28,116 18,111 19,107.4 23,102.6 35,106 43,118 50,129 60,134
      70,150`),
    { localTone: 0.16 },
  )
  const lid = thing(points('92,94 110,98 116,105 106,110 92,111.4 78,110 68,105 74,98'), {
    localTone: 0.2,
  })
  const knob = thing(points('92,84.4 97.6,87 97.4,92 92,94.6 86.6,92 86.4,87'), { localTone: 0.6 })
  const pears = PEARS.map((place) => ({
    place,
    form: thing(pearOutline(place), { localTone: 0.22 }),
  }))
  const cloth = points(
    '15,212 38,204 60,199 78,251 80,268 70,281 55,274 40,284 27,276 14,282 14,252',
  )
  const shadows = [
    points('62,181 92,186 124,180 134,168 158,170 190,178 196,186 170,190 128,192 86,191'),
    points('138,212 152,214 170,206 192,206 200,211 188,217 160,219 142,217'),
    points('72,228 96,239 116,236 126,232 146,238 138,245 106,247 80,241'),
    points('160,246 174,248 188,241 200,243 201,248 184,253 166,252'),
  ]
  return {
    body,
    spout,
    lid,
    knob,
    pears,
    everything: [body, spout, lid, knob, ...pears.map(({ form }) => form)],
    shadows: shadows.map((outline) => depthsOf(outline, { cellMm: 1, marginMm: 6 })),
    cloth: depthsOf(cloth, { cellMm: 1, marginMm: 4 }),
  }
}
