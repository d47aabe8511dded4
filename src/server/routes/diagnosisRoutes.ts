import { confirmedCause, newFailure, trouble, troubleQuestion } from '../../api/diagnosis.ts'
import { PATHS } from '../../api/paths.ts'
import { addFailure, confirmFailure } from '../../store/diagnosisFailures.ts'
import { runOf } from '../../store/runs.ts'
import { signsAsked, troubleTold } from '../diagnosis/troubleAnswer.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'

/** Why a screen failed. */
export function diagnosisRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.trouble,
      summary:
        'ranked causes of a failed screen from what is seen and what the shop knows, and the one test that tells the first two apart',
      query: troubleQuestion,
      answer: trouble,
      run: async ({ query }) => {
        const service = door.shop()
        const run = query.run ?? null
        // not found, where there is no such exposure
        if (run !== null) await runOf(service.store.database, run)
        return troubleTold(service, {
          yes: signsAsked(query.yes, 'yes'),
          no: signsAsked(query.no, 'no'),
          run,
        })
      },
    }),
    route({
      method: 'post',
      path: PATHS.trouble,
      summary: 'takes down a failure with what was seen, and its cause where somebody found it out',
      body: newFailure,
      answer: trouble,
      status: 201,
      run: async ({ body: { yes, no, run, cause } }) => {
        const service = door.shop()
        const asked = { yes: [...new Set(yes)], no: [...new Set(no)], run: run ?? null }
        const { ranked } = await troubleTold(service, asked)
        const guessed = ranked[0]?.cause ?? cause ?? 'nothing seen'
        const failure = { runId: asked.run, yes: asked.yes, no: asked.no, guessed, cause }
        await addFailure(service.store.database, failure, { at: service.now() })
        return troubleTold(service, asked)
      },
    }),
    route({
      method: 'post',
      path: `${PATHS.trouble}/{failure}/cause`,
      summary: 'what a failure turned out to be: the table learns of it',
      body: confirmedCause,
      answer: trouble,
      run: async ({ body: { cause }, place }) => {
        const service = door.shop()
        const at = service.now()
        await confirmFailure(service.store.database, place('failure'), { cause, at })
        return troubleTold(service, { yes: [], no: [], run: null })
      },
    }),
  ]
}
