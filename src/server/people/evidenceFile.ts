import type { Hono } from 'hono'
import { evidencePath } from '../../api/paths.ts'
import type { Evidence } from '../../api/people.ts'
import { deflater } from '../../decode/deflater.ts'
import { openLetters } from '../../decode/glyphs.ts'
import { writeFilmPdf } from '../../formats/filmPdf.ts'
import { theShop } from '../../store/shop.ts'
import { dateWords } from '../../workflow/papers/dayWords.ts'
import { evidencePages } from '../../workflow/papers/evidencePages.ts'
import type { ShopDoor } from '../door.ts'
import { fileAnswer } from '../http/fileAnswer.ts'
import type { Told } from '../http/route.ts'
import { inMemory } from '../papers/inMemory.ts'
import { dayText } from '../shop/days.ts'
import { evidenceTold } from './evidenceTold.ts'
import { MACHINE_NAMES } from './machineNames.ts'

/** Somebody's work on paper. */
export function addEvidence(app: Hono, door: ShopDoor): void {
  app.get(evidencePath('PERSON', 'pdf').replace('PERSON', ':person'), async (context) => {
    const { store, now } = door.shop()
    const personId = context.req.param('person') ?? ''
    const evidence = await evidenceTold(store.database, { personId, now: now() })
    const shop = await theShop(store.database)
    const date = dayText(now())
    const { name, role, className } = evidence
    const pages = evidencePages(
      {
        name,
        about: `Process evidence: ${className === null ? '' : `${className}, `}${role}, ${shop.name}.`,
        sections: sectionsOf(evidence),
        shop: { name: shop.name, demo: shop.kind === 'demo' },
        date,
      },
      { letters: await openLetters() },
    )
    const title = `Process evidence, ${name}`
    const bytes = await inMemory((sink) =>
      writeFilmPdf(pages, { sink, deflater: deflater(), title }),
    )
    return fileAnswer(context, bytes, { type: 'application/pdf', name: `evidence ${date}.pdf` })
  })
}

type Section = Readonly<{ title: string; lines: readonly string[] }>

/** What there is nothing of says so: an empty heading could be a fault. */
function sectionsOf(evidence: Told<Evidence>): readonly Section[] {
  const { signOffs, tickets, films, readings, screens } = evidence
  const sections: readonly Section[] = [
    ...tickets.map(({ code, name, openedOn, closedOn, layers, log }) => ({
      title: `${code}: ${name}`,
      lines: [
        `Opened ${dateWords(openedOn)}${closedOn === null ? '' : `, closed ${dateWords(closedOn)}`}.`,
        ...layers.map(
          ({ shortName, ink, pulled, spoiled }) =>
            `${shortName}, ${ink}: ${pulled} pulled, ${spoiled} spoiled.`,
        ),
        ...log.map(({ on, says }) => onDay(on, says)),
      ],
    })),
    { title: 'Films', lines: films.map(({ name, on }) => onDay(on, name)) },
    { title: 'Tests', lines: readings.map(({ on, says }) => onDay(on, says)) },
    {
      title: 'Screens',
      lines: screens.map(({ tag, on, says }) => onDay(on, `screen ${tag}, ${says}`)),
    },
    {
      title: 'Shown',
      lines: signOffs.map(({ machine, unit, givenOn, givenBy, expiresOn }) => {
        const by = givenBy === null ? '' : ` by ${givenBy}`
        const until = expiresOn === null ? '' : `, until ${dateWords(expiresOn)}`
        return onDay(givenOn, `${unit?.name ?? MACHINE_NAMES[machine]}${by}${until}`)
      }),
    },
  ]
  return sections.map(({ title, lines }) => ({
    title,
    lines: lines.length === 0 ? ['Nothing was written down.'] : lines,
  }))
}

function onDay(day: string, says: string): string {
  return `${dateWords(day)}: ${says}`
}
