import { PATHS } from '../../api/paths.ts'
import { screenChoice, screenQuestion } from '../../api/screenChoice.ts'
import type { ShopDoor } from '../door.ts'
import { type Route, route } from '../http/route.ts'
import { screensFor } from '../screenChoice/screensFor.ts'

/** Which screen for a film. */
export function screenChoiceRoutes(door: ShopDoor): readonly Route[] {
  return [
    route({
      method: 'get',
      path: PATHS.screenChoice,
      summary:
        'the shop’s screens for a film or a layer, the best first: what each holds, how it stands, and why',
      query: screenQuestion,
      answer: screenChoice,
      run: ({ query }) => screensFor(door.shop(), query),
    }),
  ]
}
