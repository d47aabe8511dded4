import type { NewRun } from '../../api/bench.ts'
import { USUAL_WEDGE } from '../../core/calibration/wedge.ts'
import { Failure } from '../../core/failure.ts'
import { usualGauge } from '../../core/runSheet/checks.ts'
import { stepsOf } from '../../core/runSheet/ownList.ts'
import { lu } from '../../core/units/quantity.ts'
import type { Json } from '../../store/database/record.ts'
import { beginRun, gaugeValues, type Run, runWithKey, stepListOf } from '../../store/runs.ts'
import { unitOf } from '../../store/units.ts'
import { countsOf } from '../../workflow/lightSetup.ts'
import { expectShown } from '../people/expectShown.ts'
import type { Who } from '../people/peopleKeeper.ts'
import { lightOf } from '../routes/lightRoutes.ts'
import { unitAsked } from '../shop/exposureAsked.ts'
import type { ShopService } from '../shop/shopService.ts'
import { aboutOf } from './about.ts'
import { knownOf } from './known.ts'

/** Where the gauge stood in the last so many exposures tells where it usually stands. */
const GAUGES_READ = 9

/**
 * Begins a run from what Light answers to the same question; begun again under the same key it is
 * the one there is.
 *
 * @throws Failure as Light does, for what the shop does not have, or 'wrong input' where a lamp that
 * counts seconds is not said to be cold or hot; 'conflict' for whom nobody has shown what it takes
 */
export async function begun(
  service: ShopService,
  { key, from, ...asked }: NewRun,
  { who }: Readonly<{ who: Who }>,
): Promise<Run> {
  const { database } = service.store
  const there = await runWithKey(database, key)
  if (there !== null) return there
  const light = await lightOf(service, asked)
  await expectShown(database, who, { act: 'expose', unit: light.asked.unit, now: service.now() })
  if (light.countsIn === 'seconds' && light.lampTime !== null && from === undefined) {
    const message = `Say whether the lamp is cold or hot: ${light.asked.unit.name} needs other seconds then.`
    throw new Failure('wrong input', message, { field: 'from' })
  }
  const { subject, base, screen, unit } = light.asked
  const about = aboutOf(light, { from })
  const own = await stepListOf(database, { unitId: unit.id })
  const gauge = usualGauge(await gaugeValues(database, { unitId: unit.id, limit: GAUGES_READ }))
  const known = await knownOf(database, {
    screenId: screen?.id ?? null,
    unitId: unit.id,
    filmId: subject.kind === 'film' ? subject.id : null,
    now: service.now(),
  })
  const facts = { ...about, gauge, wedgeSteps: USUAL_WEDGE.steps, known }
  const steps = stepsOf(facts, { list: own })
  const counts = countsOf(unitAsked(await service.records(), unit.id))
  const { lamp: fitted } = await unitOf(database, unit.id)
  const inLu = (count: number) => lu(count / counts)
  const exposure = {
    screenId: screen?.id ?? null,
    unitId: unit.id,
    lampId: fitted?.id ?? null,
    personId: who.person?.id ?? null,
    plannedDoseLu: inLu(light.dose.value),
    plannedLowLu: inLu(light.dose.low),
    plannedHighLu: inLu(light.dose.high),
    chanceGood: light.chance.good,
    why: light.reasons,
  }
  const run = {
    sentKey: key,
    mediumId: subject.kind === 'medium' ? subject.id : null,
    baseId: base.id,
    about: { ...about, from: from ?? null, place: asked.place ?? null } as unknown as Json,
    steps: steps as unknown as Json,
  }
  const filmIds = subject.kind === 'film' ? [subject.id] : []
  return beginRun(database, { run, planned: { exposure, filmIds } }, { at: service.now() })
}
