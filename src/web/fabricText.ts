import type { BlankChoice } from './signs/Blank.tsx'
import type { Units } from './signs/Ruler.tsx'

const CM_PER_INCH = 2.54
/** A fabric's code: threads a cm and thread in um, like 90-48; no part of a date. */
const CODE = /(?<![\d-])(\d{1,3})-(\d{2,3})(?![\d-])/g

/** What speaks of fabrics, with their threads an inch beside the code where inches are counted. */
export function fabricText(text: string, units: Units): string {
  if (units === 'metric') return text
  return text.replaceAll(CODE, (code, perCm: string) => {
    return `${code} (${Math.round(Number(perCm) * CM_PER_INCH)} per inch)`
  })
}

/** The same for choices that are fabrics, or that name one beside them. */
export function fabricChoices(
  choices: readonly BlankChoice[],
  units: Units,
): readonly BlankChoice[] {
  if (units === 'metric') return choices
  return choices.map(({ name, about, ...choice }) => ({
    ...choice,
    name: fabricText(name, units),
    about: typeof about === 'string' ? fabricText(about, units) : null,
  }))
}
