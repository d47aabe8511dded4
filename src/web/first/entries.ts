import type { FirstFacts, Outcome } from '../../api/shop.ts'

/** What was written into the blanks of one remembered exposure; empty: left open. */
export type RememberedEntry = Readonly<{ medium: string; dose: string; outcome: Outcome | '' }>

/** What was written into the paragraph; empty: left open. */
export type Entries = Readonly<{
  shopName: string
  countsIn: NonNullable<FirstFacts['countsIn']> | ''
  fabric: string
  colour: NonNullable<FirstFacts['colour']> | ''
  coats: NonNullable<FirstFacts['coats']> | ''
  emulsion: NonNullable<FirstFacts['emulsion']> | ''
  lastTime: RememberedEntry
  another: RememberedEntry
}>

const NOT_REMEMBERED: RememberedEntry = { medium: '', dose: '', outcome: '' }

export const NO_ENTRIES: Entries = {
  shopName: '',
  countsIn: '',
  fabric: '',
  colour: '',
  coats: '',
  emulsion: '',
  lastTime: NOT_REMEMBERED,
  another: NOT_REMEMBERED,
}

/** The dose that was written, with a point or a comma; null when it is no number one can set. */
export function doseWritten(text: string): number | null {
  const plain = text.trim().replace(',', '.')
  if (!/^\d+(\.\d+)?$/.test(plain)) return null
  const doseLu = Number(plain)
  return doseLu >= 0.1 && doseLu <= 100_000 ? doseLu : null
}

/** Whether something stands there that cannot be a dose. */
export function isWrongDose(text: string): boolean {
  return text.trim() !== '' && doseWritten(text) === null
}

/** What is known; a memory counts only when all three of its blanks are filled. */
export function factsOf(entries: Entries): FirstFacts {
  const { shopName, countsIn, fabric, colour, coats, emulsion } = entries
  const [lastTime, another] = [remembered(entries.lastTime), remembered(entries.another)]
  return {
    ...(shopName.trim() === '' ? {} : { shopName: shopName.trim() }),
    ...(countsIn === '' ? {} : { countsIn }),
    ...(fabric === '' ? {} : { fabric }),
    ...(colour === '' ? {} : { colour }),
    ...(coats === '' ? {} : { coats }),
    ...(emulsion === '' ? {} : { emulsion }),
    ...(lastTime === null ? {} : { lastTime }),
    ...(another === null ? {} : { another }),
  }
}

function remembered({ medium, dose, outcome }: RememberedEntry): FirstFacts['lastTime'] | null {
  const doseLu = doseWritten(dose)
  return medium === '' || doseLu === null || outcome === '' ? null : { medium, doseLu, outcome }
}
