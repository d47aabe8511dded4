import { PATHS } from '../../api/paths.ts'
import { designQuestion, testDesign } from '../../api/tests.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { designOf } from '../tests/designAnswer.ts'

/** Which strip to make. */
export function designRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.testDesign,
      summary:
        'which strip to make for a medium on a set-up: its bands, what to set on the counter, and what it would tell',
      query: designQuestion,
      answer: testDesign,
      run: ({ query }) => {
        const service = door.shop()
        return service.kept(`design ${JSON.stringify(query)}`, () => designOf(service, query))
      },
    }),
  ]
}
