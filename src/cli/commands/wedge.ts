import {
  INCREMENT,
  readWedge,
  STEP,
  USUAL_TARGET_STEP,
  USUAL_WEDGE,
  type WedgeReading,
} from '../../core/calibration/wedge.ts'
import { density, lu } from '../../core/units/quantity.ts'
import type { Option } from '../arguments.ts'
import type { Command } from '../command.ts'
import { doseOf } from '../doses.ts'
import { figures } from '../figures.ts'
import { numberIn } from '../reads.ts'

const DOSE_SET: Option<number> = {
  name: 'dose',
  about: 'the dose that the wedge was exposed with, in light units',
  needed: true,
  reads: doseOf('dose', 42),
}

const LAST_SOLID: Option<number> = {
  name: 'last-solid',
  about: 'the last step that stayed in the mesh',
  needed: true,
  reads: numberIn(STEP, { what: 'last solid step', units: '', like: 5, shown: 'K' }),
}

const TARGET: Option<number> = {
  name: 'target',
  about: `the step that should be the last solid one; ${USUAL_TARGET_STEP} unless given`,
  needed: false,
  reads: numberIn(STEP, { what: 'target step', units: '', like: USUAL_TARGET_STEP, shown: 'STEP' }),
}

const STEP_DENSITY: Option<number> = {
  name: 'increment',
  about: `density from step to step; ${USUAL_WEDGE.increment} unless given`,
  needed: false,
  reads: numberIn(INCREMENT, { what: 'increment', units: 'density', like: 0.15, shown: 'D' }),
}

export const wedge: Command = {
  name: 'wedge',
  summary: 'the next dose, from the last step of a wedge that stayed in the mesh',
  places: [],
  options: [DOSE_SET, LAST_SOLID, TARGET, STEP_DENSITY],
  notes: [
    'One reading is known to about half a step and screens differ: nine times in ten the right dose lies in the range.',
  ],
  example: {
    line: 'wedge --dose 42 --last-solid 5',
    prints: [
      '83.8 light units, 57.4 to 122, to hold step 7.',
      'That is 2 times the dose; one reading says no more than that range.',
    ].join('\n'),
  },
  run: async (given) => {
    const targetStep = given.of(TARGET) ?? USUAL_TARGET_STEP
    const reading = readWedge({
      doseLu: lu(given.needs(DOSE_SET)),
      lastSolidStep: given.needs(LAST_SOLID),
      targetStep,
      increment: density(given.of(STEP_DENSITY) ?? USUAL_WEDGE.increment),
    })
    return { record: reading, text: wedgeText(reading, targetStep) }
  },
}

function wedgeText({ factor, nextDoseLu }: WedgeReading, targetStep: number): string {
  const { value, low, high } = nextDoseLu
  return [
    `${figures(value)} light units, ${figures(low)} to ${figures(high)}, to hold step ${targetStep}.`,
    `That is ${figures(factor)} times the dose; one reading says no more than that range.`,
  ].join('\n')
}
