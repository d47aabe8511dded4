import type { Point } from '../curve.ts'
import { type Cut, stays } from '../marks/cut.ts'
import { layTable } from './table.ts'

/** Under the pencil of the kettle: its pears, as one flat colour. */
export function pearCuts(): readonly Cut[] {
  return layTable().pears.map(({ form }) => block(form.outline))
}

/** The kettle itself, as another. */
export function kettleCuts(): readonly Cut[] {
  const { body, spout, lid, knob } = layTable()
  return [spout, body, lid, knob].map(({ outline }) => block(outline))
}

function block(outline: readonly Point[]): Cut {
  return stays([outline])
}
