import {
  confirmedCause,
  newFailure,
  newTroubleRow,
  trouble,
  troubleQuestion,
  troubleTable,
} from '../../api/diagnosis.ts'
import { PATHS } from '../../api/paths.ts'
import { addFailure, confirmFailure } from '../../store/diagnosisFailures.ts'
import { runOf } from '../../store/runs.ts'
import { expectCause, signsIn } from '../diagnosis/inTable.ts'
import { changeTable, shopTable, tableTold, takeOutOfTable } from '../diagnosis/shopTable.ts'
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
        const { table } = await shopTable(service.store.database)
        return troubleTold(service, {
          yes: signsAsked(query.yes, { table, field: 'yes' }),
          no: signsAsked(query.no, { table, field: 'no' }),
          unsure: signsAsked(query.unsure, { table, field: 'unsure' }),
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
        const { table } = await shopTable(service.store.database)
        if (cause !== null) expectCause(cause, table)
        const asked = {
          yes: signsIn(yes, { table, field: 'yes' }),
          no: signsIn(no, { table, field: 'no' }),
          run: run ?? null,
        }
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
        expectCause(cause, (await shopTable(service.store.database)).table)
        await confirmFailure(service.store.database, place('failure'), { cause, at })
        return troubleTold(service, { yes: [], no: [], run: null })
      },
    }),
    route({
      method: 'get',
      path: PATHS.troubleTable,
      summary:
        'the table of why screens fail: causes, signs and how often they go together, with what the shop changed and confirmed',
      answer: troubleTable,
      run: () => tableTold(door.shop()),
    }),
    route({
      method: 'post',
      path: PATHS.troubleTable,
      summary:
        'a row of the shop’s own in that table: it stands over the program’s own, or beside the others',
      body: newTroubleRow,
      answer: troubleTable,
      run: async ({ body }) => {
        const service = door.shop()
        await changeTable(service.store.database, body, { at: service.now() })
        return tableTold(service)
      },
    }),
    route({
      method: 'delete',
      path: `${PATHS.troubleTable}/{row}`,
      summary: 'a row of the shop’s own is taken out: the program’s own counts again',
      answer: troubleTable,
      run: async ({ place }) => {
        const service = door.shop()
        await takeOutOfTable(service.store.database, place('row'))
        return tableTold(service)
      },
    }),
  ]
}
