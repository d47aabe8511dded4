import { PATHS } from '../../api/paths.ts'
import { type ShopSetup, shopSetup } from '../../api/upkeep.ts'
import { Failure } from '../../core/failure.ts'
import type { Range } from '../../core/units/range.ts'
import type { DoseForFilm } from '../../workflow/doseForFilm.ts'
import { setupFrom, setupValue } from '../../workflow/readSetup.ts'
import { withShopDefaults } from '../../workflow/shopSetup.ts'
import type { Given, Option } from '../arguments.ts'
import type { Command, Io } from '../command.ts'
import { figures } from '../figures.ts'
import { FILM, FILM_OPTIONS, SETUP, withFilmAndSetup } from '../film.ts'
import { hung } from '../helpText.ts'
import { progressOn } from '../progress.ts'
import { numberIn, word } from '../reads.ts'
import { SHOP, withShop } from '../shopOption.ts'

const MARKS: Range = { name: 'marksAbove', low: 0.02, high: 5, unit: 'D' }
const MARKS_ABOVE_UNLESS_GIVEN = 0.3

const MARKS_ABOVE: Option<number> = {
  name: 'marks-above',
  about: `what is denser than this is a mark that must print; ${MARKS_ABOVE_UNLESS_GIVEN} unless given`,
  needed: false,
  reads: numberIn(MARKS, { what: 'density of marks', units: 'density', like: 0.3, shown: 'D' }),
}

const MEDIUM: Option<string> = {
  name: 'medium',
  about: 'say as well what the shop of --shop knows of this medium',
  needed: false,
  reads: word({ what: 'medium', shown: 'NAME' }),
}

const OF_SHOP: Option<string> = {
  ...SHOP,
  about: "a shop's data folder: what the setup leaves out is as it is usual and was found there",
}

export const dose: Command = {
  name: 'dose',
  summary: 'how many light units for this film on this screen, and how much room there is',
  places: [FILM],
  options: [SETUP, MARKS_ABOVE, MEDIUM, OF_SHOP, ...FILM_OPTIONS],
  notes: [
    "Do not look at the lamp. Your unit's manual, the emulsion's data sheet and local codes come first.",
  ],
  example: {
    line: 'dose docs/example/pencil.png --setup docs/example/setup.json --marks-above 0.9',
    prints: [
      '36.9 light units: holds. 10.3 to 43.9, 4.2 steps of latitude.',
      'From 10.3 lu the stencil stays in the mesh, and the weakest mark opens up to 43.9 lu.',
      'It would be hard through only from 52.1 lu: before that the mark skins over, so the squeegee',
      'side stays soft.',
      'The weakest mark lies 84.1 mm from the left and 214.8 mm from the top: density 0.90, 0.86 with',
      'the light from beside it, about 0.21 mm wide.',
      '- Wash out at low pressure.',
      '- Rinse the squeegee side until no slime is left on it.',
      '- Blot both sides, then dry the screen.',
      '- Check every mark against the light before post-exposing: what is veiled then stays shut.',
      '- Plan a short run.',
      '- For post-exposure keep the unit closed and do not look at the lamp; its manual and the',
      '  emulsion’s safety data sheet come first.',
    ].join('\n'),
  },
  run: async (given, io) => {
    const shop = await shopAsked(given, io)
    return withFilmAndSetup(
      given,
      io,
      async (film, setup) => {
        const { doseForFilm } = await import('../../workflow/doseForFilm.ts')
        const progress = progressOn(io.stderr, 'dose')
        const question = { marksAbove: given.of(MARKS_ABOVE) ?? MARKS_ABOVE_UNLESS_GIVEN }
        const answer = await doseForFilm(film, setup, question, (rowsDone) =>
          progress.at(rowsDone / film.heightPx),
        )
        progress.done()
        const { medium = null } = shop ?? {}
        const text = doseText(answer)
        if (medium === null) return { record: answer, text }
        return { record: { ...answer, medium }, text: `${text}\n${mediumText(medium)}` }
      },
      shop === null
        ? undefined
        : (text) => setupFrom(withShopDefaults(setupValue(text), shop.setup)),
    )
  },
}

/** What the shop has found, where one is named. @throws Failure for a medium without a shop */
async function shopAsked(given: Given, io: Io): Promise<ShopSetup | null> {
  const medium = given.of(MEDIUM)
  if (given.of(OF_SHOP) === undefined) {
    if (medium === undefined) return null
    const message = '--medium needs --shop DIR: it is the shop that knows how a medium comes out.'
    throw new Failure('wrong input', message, { field: 'shop' })
  }
  const query = medium === undefined ? '' : `?medium=${encodeURIComponent(medium)}`
  return withShop(given.of(OF_SHOP), io, async (ask) =>
    shopSetup.parse(await (await ask(`${PATHS.setup}${query}`)).json()),
  )
}

function mediumText({
  name,
  dose: found,
  chanceGood,
  word,
}: NonNullable<ShopSetup['medium']>): string {
  const ten = Math.round(10 * chanceGood)
  return `For ${name} in this shop: ${figures(found.value)}, ${figures(found.low)} to ${figures(found.high)}, ${word}; ${ten} screens in 10 come out good.`
}

function doseText(answer: DoseForFilm): string {
  const { verdict, recommendedLu, lowLu, highLu, latitudeSteps } = answer
  const range = `${figures(lowLu)} to ${figures(highLu)}, ${figures(latitudeSteps, 2)} steps of latitude`
  const head =
    verdict === 'no dose'
      ? `No dose does both; ${figures(recommendedLu)} light units come nearest.`
      : `${figures(recommendedLu)} light units: ${verdict}. ${range}.`
  return [
    head,
    ...answer.reasons.flatMap((reason) => hung('', reason)),
    ...answer.advice.flatMap((advice) => hung('- ', advice)),
  ].join('\n')
}
