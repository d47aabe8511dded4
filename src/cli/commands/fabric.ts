import type { Fabric } from '../../core/fabric/geometry.ts'
import { fabricGeometry, THREAD, THREADS_PER_CM, weaveNamed } from '../../core/fabric/geometry.ts'
import type { Weave } from '../../core/fabric/grades.ts'
import { Failure } from '../../core/failure.ts'
import { perCm, um } from '../../core/units/quantity.ts'
import type { Given, Option, Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns, figures, percent } from '../figures.ts'
import { numberIn } from '../reads.ts'

const NAME: Place<Weave> = {
  name: 'NAME',
  about: 'threads per cm and thread diameter in um, like 90-48',
  needed: false,
  reads: { shown: 'NAME', read: weaveNamed },
}

const COUNT: Option<number> = {
  name: 'threads-per-cm',
  about: 'the thread count, in place of NAME',
  needed: false,
  reads: numberIn(THREADS_PER_CM, {
    what: 'thread count',
    units: 'threads per cm',
    like: 90,
    shown: 'N',
  }),
}

const THREAD_UM: Option<number> = {
  name: 'thread-um',
  about: "the thread's diameter, with --threads-per-cm",
  needed: false,
  reads: numberIn(THREAD, { what: 'thread', units: 'um', like: 48, shown: 'D' }),
}

export const fabric: Command = {
  name: 'fabric',
  summary: 'what a fabric lets through: opening, ink, the finest line, the rulings it holds',
  places: [NAME],
  options: [COUNT, THREAD_UM],
  notes: ['Opening and ink are theory: finished and stretched cloth opens a few um less.'],
  example: {
    line: 'fabric 90-48',
    prints: [
      'fabric       90 threads a cm of 48 um',
      'opening      63.1 um, 32.3 % open',
      'thickness    72 um, published',
      'ink          23.2 cm3 for each m2',
      'finest line  111 um, one pitch',
      'ruling       18 coarse, 24 usual, 36 finest, per cm',
    ].join('\n'),
  },
  run: async (given) => {
    const geometry = fabricGeometry(weaveFrom(given))
    return { record: geometry, text: fabricText(geometry) }
  },
}

function weaveFrom(given: Given): Weave {
  const named = given.of(NAME)
  const count = given.of(COUNT)
  const thread = given.of(THREAD_UM)
  if (named !== undefined) {
    const doubled = count !== undefined ? COUNT : thread !== undefined ? THREAD_UM : null
    if (doubled === null) return named
    throw wrong(
      doubled,
      `The name says it all: leave out --${doubled.name}, or leave out the name.`,
    )
  }
  if (count === undefined && thread === undefined) {
    throw wrong(NAME, 'fabric needs a name like 90-48, or --threads-per-cm 90 --thread-um 48.')
  }
  if (count === undefined) throw wrong(COUNT, '--thread-um stands alone: add --threads-per-cm N.')
  if (thread === undefined)
    throw wrong(THREAD_UM, '--threads-per-cm stands alone: add --thread-um D.')
  return { threadsPerCm: perCm(count), threadUm: um(thread) }
}

function wrong({ name }: Option | Place, message: string): Failure {
  return new Failure('wrong input', message, { field: name })
}

function fabricText(fabric: Fabric): string {
  const { coarse, usual, finest } = fabric.rulingPerCm
  return columns([
    ['fabric', `${fabric.threadsPerCm} threads a cm of ${fabric.threadUm} um`],
    ['opening', `${figures(fabric.openingUm)} um, ${percent(fabric.openAreaShare)} open`],
    ['thickness', `${figures(fabric.thicknessUm)} um, ${fabric.thicknessBasis}`],
    ['ink', `${figures(fabric.inkVolumeCm3PerM2)} cm3 for each m2`],
    ['finest line', `${figures(fabric.finestLineUm)} um, one pitch`],
    [
      'ruling',
      `${figures(coarse)} coarse, ${figures(usual)} usual, ${figures(finest)} finest, per cm`,
    ],
  ])
}
